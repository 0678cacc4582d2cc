use super::form::{Form, FormEntry, FormError, FormSubject};
use super::task::Task;
use crate::editor::Editor;
use crate::{Edit, Model, Refused};
use sizing::house_rules::{Band, Exception, ExceptionFault, ExceptionPart, Rule, Stated};

/// What counts instead of one rule of the house, line by line.
pub type ExceptionForm = Form<Rule, ExceptionPart>;

impl ExceptionForm {
    /// Begins with the exception there is, or with what the house says.
    pub(crate) fn new(mut rule: Rule, exception: Option<&Exception>) -> Self {
        // It keeps the name by which it was made.
        if let Some(exception) = exception {
            rule.address.clone_from(&exception.rule);
        }
        let stated = exception.map_or(rule.stated, |exception| exception.instead);
        let figures = parts(stated).into_iter();
        let figures = figures.map(|(part, value)| (part, FormEntry::typed(written(value))));
        let because = exception.map_or("", |exception| &exception.because);
        let because = FormEntry::Typed(Editor::new(because));
        let lines = figures.chain([(ExceptionPart::Because, because)]);
        Self::with(rule, lines.collect())
    }

    /// What is overridden, short enough for a line.
    pub fn title(&self) -> String {
        let when = &self.of.when;
        format!("exception for this case: {}{when}", self.of.about)
    }

    /// What the house says on a line, with its unit; nothing beside the reason.
    pub fn house(&self, part: ExceptionPart) -> String {
        let mut parts = parts(self.of.stated).into_iter();
        match parts.find(|(one, _)| *one == part) {
            Some((_, Some(value))) => format!("your centre: {value} {}", self.of.unit),
            Some((_, None)) => "your centre: no limit".to_owned(),
            None => String::new(),
        }
    }

    fn exception(&self) -> Result<Exception, ExceptionFault> {
        let instead = match self.of.stated {
            Stated::Limits { .. } => Stated::Limits {
                stop: Band {
                    low: self.figure(ExceptionPart::StopLow)?,
                    high: self.figure(ExceptionPart::StopHigh)?,
                },
                caution: Band {
                    low: self.figure(ExceptionPart::CautionLow)?,
                    high: self.figure(ExceptionPart::CautionHigh)?,
                },
            },
            Stated::Value(_) => Stated::Value(self.needed(ExceptionPart::Value)?),
            Stated::Assumed { .. } => Stated::Assumed {
                value: self.needed(ExceptionPart::Value)?,
                sd: self.needed(ExceptionPart::Sd)?,
            },
        };
        Ok(Exception {
            rule: self.of.address.clone(),
            instead,
            because: self.text(ExceptionPart::Because),
        })
    }

    fn figure(&self, part: ExceptionPart) -> Result<Option<f64>, ExceptionFault> {
        let number = self.number(part, self.of.unit.symbol());
        number.map_err(|_| ExceptionFault {
            part,
            expected: "a number; leave it empty for no limit".to_owned(),
        })
    }

    fn needed(&self, part: ExceptionPart) -> Result<f64, ExceptionFault> {
        let expected = "a number".to_owned();
        let fault = ExceptionFault { part, expected };
        self.figure(part).map_err(|_| fault.clone())?.ok_or(fault)
    }
}

impl FormSubject<ExceptionPart> for Rule {
    fn read(form: &ExceptionForm, model: &Model) -> Result<Task, FormError<ExceptionPart>> {
        let exception = form.exception().and_then(|exception| {
            let fault = exception.faults().into_iter().next();
            fault.map_or(Ok(exception), Err)
        });
        let exception =
            exception.map_err(|fault| FormError::on(fault.part, fault.part.label(), &fault))?;
        if exception.instead == form.of.stated {
            return Err(Refused::SameAsCentre.into());
        }
        let mut all = model.document().case().exceptions.clone();
        match all.iter_mut().find(|one| one.rule == exception.rule) {
            Some(one) => *one = exception,
            None => all.push(exception),
        }
        Ok(Task::Edit(Edit::Exceptions(all)))
    }

    fn takes_words(&self, part: ExceptionPart) -> bool {
        part == ExceptionPart::Because
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
