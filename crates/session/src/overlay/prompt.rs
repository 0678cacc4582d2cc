use super::form::{Form, FormEntry, FormError, FormSubject};
use super::task::Task;
use crate::errand::{Errand, Save};
use crate::{DisplayOptions, Edit, Filter, Model, Refused, amount};
use measurement::{Quantity, Reading, ReadingId};
use std::path::PathBuf;

/// What a field asks for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Prompt {
    /// The value of a reading.
    Value(ReadingId, Quantity),
    /// The standard deviation of a reading; nothing: your centre's.
    Sd(ReadingId, Quantity),
    /// Why a reading is set aside.
    Reason(ReadingId, Quantity),
    /// Which shapes the ranked list shows.
    Filter,
    /// The file in which the case is saved.
    SaveTo {
        /// Whether the program ends once it is saved.
        leaves: bool,
    },
}

/// A form of one line, which is typed.
pub type Field = Form<Prompt, ()>;

impl Field {
    pub(crate) fn new(prompt: Prompt, text: impl Into<String>) -> Self {
        Self::with(prompt, vec![((), FormEntry::typed(text))])
    }
}

impl FormSubject<()> for Prompt {
    fn read(form: &Field, model: &Model) -> Result<Task, FormError<()>> {
        Ok(form.of.read(&form.text(()), model)?)
    }

    fn takes_words(&self, (): ()) -> bool {
        matches!(self, Self::Reason(..) | Self::SaveTo { .. })
    }
}

impl Prompt {
    /// The question, short enough for a line.
    pub fn title(&self) -> String {
        match self {
            Self::Value(_, quantity) => format!("{quantity}, {}", quantity.unit().symbol()),
            Self::Sd(_, quantity) => format!("SD of {quantity}, {}", quantity.unit().symbol()),
            Self::Reason(_, quantity) => format!("why set aside: {quantity}"),
            Self::Filter => "show shapes with".into(),
            Self::SaveTo { .. } => "save in the file, such as cases/7.ron".into(),
        }
    }

    /// The change that a typed text asks for; what is wrong with it, otherwise.
    fn read(&self, text: &str, model: &Model) -> Result<Task, Refused> {
        let reading = |id: &ReadingId| {
            let found = model.document().reading(id).cloned();
            found.ok_or_else(|| Refused::NoSuchReading(id.clone()))
        };
        let edit = match self {
            Self::Value(id, quantity) => {
                let value = amount::typed(*quantity, text);
                Edit::Replace(Reading {
                    value: value.ok_or(Refused::OutOfRange(*quantity))?,
                    ..reading(id)?
                })
            }
            Self::Sd(id, quantity) => Edit::Replace(Reading {
                sd: match text {
                    "" => None,
                    text => Some(amount::typed(*quantity, text).ok_or(Refused::SdExpected)?),
                },
                ..reading(id)?
            }),
            Self::Reason(id, _) => Edit::Replace(Reading {
                set_aside: Some(text.to_owned()),
                ..reading(id)?
            }),
            Self::Filter => {
                let shown = model.document().shown();
                let filter = Filter {
                    text: text.to_owned(),
                    ..shown.filter.clone()
                };
                Edit::Shown(DisplayOptions {
                    filter,
                    ..shown.clone()
                })
            }
            Self::SaveTo { leaves } => {
                let save = Save {
                    to: path(text)?,
                    over: false,
                    leaves: *leaves,
                };
                return Ok(Task::Errand(Errand::Save(save)));
            }
        };
        Ok(Task::Edit(edit))
    }
}

fn path(text: &str) -> Result<PathBuf, Refused> {
    match text {
        "" => Err(Refused::PathExpected),
        path => Ok(PathBuf::from(path)),
    }
}
