use super::{Taken, line_beside};
use crate::editor::Editor;
use crate::key::{Key, KeyCode};
use crate::{Edit, Refused, Session};
use sizing::house_rules::{Band, Exception, ExceptionFault, ExceptionPart, Rule, Stated};

/// What counts instead of one rule of the house, line by line; it takes every key.
#[derive(Clone, Debug, PartialEq)]
pub struct ExceptionForm {
    /// The rule as the house has it.
    pub rule: Rule,
    /// What was typed for each part.
    pub lines: Vec<(ExceptionPart, Editor)>,
    /// The selected line, from 0.
    pub line: usize,
    /// What is wrong with it, if it was refused.
    pub error: Option<String>,
}

impl ExceptionForm {
    /// Begins with the exception there is, or with what the house says.
    pub(crate) fn new(rule: Rule, exception: Option<&Exception>) -> Self {
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
            lines,
            line: 0,
            error: None,
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
            Some((_, Some(value))) => format!("the house: {value} {}", self.rule.unit),
            Some((_, None)) => "the house: no limit".to_owned(),
            None => String::new(),
        }
    }

    pub(crate) fn editor_mut(&mut self) -> Option<&mut Editor> {
        self.lines.get_mut(self.line).map(|(_, editor)| editor)
    }

    pub(crate) fn key(&mut self, key: Key) -> Taken {
        match key.code {
            KeyCode::Enter => return Taken::Commit,
            KeyCode::Esc => return Taken::Close,
            _ => {}
        }
        if let Some(line) = line_beside(key, self.line, self.lines.len()) {
            self.line = line;
        } else {
            if let Some(editor) = self.editor_mut() {
                editor.key(key);
            }
            self.error = None;
        }
        Taken::Yes
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
                let line = self.lines.iter().position(|(part, _)| *part == fault.part);
                self.line = line.unwrap_or(self.line);
                return Err(Refused::new(format!("{}: {fault}", fault.part.label())));
            }
        };
        if exception.instead == self.rule.stated {
            return Err(Refused::new(
                "the house says the same: change a number, or leave with esc",
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
            because: self.text(ExceptionPart::Because),
        })
    }

    fn text(&self, part: ExceptionPart) -> String {
        let mut lines = self.lines.iter();
        let line = lines.find(|(one, _)| *one == part);
        line.map_or_else(String::new, |(_, editor)| editor.text().trim().to_owned())
    }

    /// A typed number, with a point or a comma, with or without its unit; `None`
    /// where nothing was typed.
    fn number(&self, part: ExceptionPart) -> Result<Option<f64>, ExceptionFault> {
        let text = self.text(part);
        let text = text
            .strip_suffix(self.rule.unit)
            .unwrap_or(&text)
            .trim_end();
        if text.is_empty() {
            return Ok(None);
        }
        let value: Option<f64> = text.replace(',', ".").parse().ok();
        let expected = "a number, or nothing for no limit".to_owned();
        value
            .filter(|value| value.is_finite())
            .map(|value| Some(value + 0.0))
            .ok_or(ExceptionFault { part, expected })
    }

    fn needed(&self, part: ExceptionPart) -> Result<f64, ExceptionFault> {
        let expected = "a number".to_owned();
        let fault = ExceptionFault { part, expected };
        self.number(part).map_err(|_| fault.clone())?.ok_or(fault)
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
