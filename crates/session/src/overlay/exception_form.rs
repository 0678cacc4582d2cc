use super::Taken;
use super::layer::{Layer, Next, Outcome};
use super::typed::{self, Typed};
use crate::command::Change;
use crate::editor::Editor;
use crate::hint::Hint;
use crate::key::Key;
use crate::{Edit, Refused, Session};
use sizing::house_rules::{Band, Exception, ExceptionFault, ExceptionPart, Rule, Stated};

/// What counts instead of one rule of the house, line by line; it takes every key.
#[derive(Clone, Debug, PartialEq)]
pub struct ExceptionForm {
    /// The rule as the house has it.
    pub rule: Rule,
    /// What was typed.
    pub typed: Typed<ExceptionPart>,
}

impl ExceptionForm {
    /// Begins with the exception there is, or with what the house says.
    pub(crate) fn new(mut rule: Rule, exception: Option<&Exception>) -> Self {
        // It keeps the name by which it was made.
        if let Some(exception) = exception {
            rule.address.clone_from(&exception.rule);
        }
        let stated = exception.map_or(rule.stated, |exception| exception.instead);
        let mut lines: Vec<(ExceptionPart, Editor)> = parts(stated)
            .into_iter()
            .map(|(part, value)| (part, Editor::selected(written(value))))
            .collect();
        let because = exception.map(|exception| exception.because.as_str());
        let because = Editor::new(because.unwrap_or_default());
        lines.push((ExceptionPart::Because, because));
        Self {
            rule,
            typed: Typed::new(lines),
        }
    }

    /// What is overridden, short enough for a line.
    pub fn title(&self) -> String {
        let when = &self.rule.when;
        format!("exception for this case: {}{when}", self.rule.about)
    }

    /// What the house says on a line, with its unit; nothing beside the reason.
    pub fn house(&self, part: ExceptionPart) -> String {
        let mut parts = parts(self.rule.stated).into_iter();
        match parts.find(|(one, _)| *one == part) {
            Some((_, Some(value))) => format!("your centre: {value} {}", self.rule.unit),
            Some((_, None)) => "your centre: no limit".to_owned(),
            None => String::new(),
        }
    }

    /// The edit it asks for; what is wrong with it otherwise, on the line where it
    /// is wrong.
    pub(crate) fn read(&mut self, session: &Session) -> Result<Edit, Refused> {
        let read = self.exception().and_then(|exception| {
            let fault = exception.faults().into_iter().next();
            fault.map_or(Ok(exception), Err)
        });
        let exception = match read {
            Ok(exception) => exception,
            Err(fault) => {
                let part = fault.part;
                return Err(self.typed.wrong(part, part.label(), &fault.to_string()));
            }
        };
        if exception.instead == self.rule.stated {
            return Err(Refused::new(
                "your centre says the same: change a number, or leave with esc",
            ));
        }
        let mut all = session.document().case().exceptions.clone();
        match all.iter_mut().find(|one| one.rule == exception.rule) {
            Some(one) => *one = exception,
            None => all.push(exception),
        }
        Ok(Edit::Exceptions(all))
    }

    fn exception(&self) -> Result<Exception, ExceptionFault> {
        let instead = match self.rule.stated {
            Stated::Limits { .. } => Stated::Limits {
                stop: Band {
                    low: self.number(ExceptionPart::StopLow)?,
                    high: self.number(ExceptionPart::StopHigh)?,
                },
                caution: Band {
                    low: self.number(ExceptionPart::CautionLow)?,
                    high: self.number(ExceptionPart::CautionHigh)?,
                },
            },
            Stated::Value(_) => Stated::Value(self.needed(ExceptionPart::Value)?),
            Stated::Assumed { .. } => Stated::Assumed {
                value: self.needed(ExceptionPart::Value)?,
                sd: self.needed(ExceptionPart::Sd)?,
            },
        };
        Ok(Exception {
            rule: self.rule.address.clone(),
            instead,
            because: self.typed.text(ExceptionPart::Because),
        })
    }

    fn number(&self, part: ExceptionPart) -> Result<Option<f64>, ExceptionFault> {
        let number = self.typed.number(part, self.rule.unit.symbol());
        number.map_err(|_| ExceptionFault {
            part,
            expected: "a number, or nothing for no limit".to_owned(),
        })
    }

    fn needed(&self, part: ExceptionPart) -> Result<f64, ExceptionFault> {
        let expected = "a number".to_owned();
        let fault = ExceptionFault { part, expected };
        self.number(part).map_err(|_| fault.clone())?.ok_or(fault)
    }
}

impl Layer for ExceptionForm {
    fn key(&mut self, key: Key, session: &Session) -> Outcome {
        match self.typed.key(key) {
            Taken::Yes => Outcome::Stay,
            Taken::Close => Outcome::Close,
            Taken::Commit => match self.read(session) {
                Ok(edit) => Outcome::Do(Change::Edit(edit), Next::Page),
                Err(refused) => {
                    self.refuse(refused.to_string());
                    Outcome::Stay
                }
            },
        }
    }

    fn paste(&mut self, text: &str) {
        self.typed.paste(text);
    }

    fn refuse(&mut self, why: String) {
        self.typed.error = Some(why);
    }

    fn takes_words(&self) -> bool {
        self.typed.part() == Some(ExceptionPart::Because)
    }

    fn footer(&self, _session: &Session) -> Vec<Hint> {
        typed::footer()
    }
}

/// What a rule states, number by number.
fn parts(stated: Stated) -> Vec<(ExceptionPart, Option<f64>)> {
    match stated {
        Stated::Limits { stop, caution } => vec![
            (ExceptionPart::StopLow, stop.low),
            (ExceptionPart::StopHigh, stop.high),
            (ExceptionPart::CautionLow, caution.low),
            (ExceptionPart::CautionHigh, caution.high),
        ],
        Stated::Value(value) => vec![(ExceptionPart::Value, Some(value))],
        Stated::Assumed { value, sd } => vec![
            (ExceptionPart::Value, Some(value)),
            (ExceptionPart::Sd, Some(sd)),
        ],
    }
}

fn written(value: Option<f64>) -> String {
    value.map_or_else(String::new, |value| value.to_string())
}
