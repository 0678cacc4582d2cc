use super::form::{Form, FormEntry, FormError, FormSubject};
use super::task::Task;
use crate::errand::{Errand, Save, SheetFile};
use crate::{DisplayOptions, Edit, Filter, Model, Refused, amount, trials};
use measurement::{Quantity, Reading, ReadingId};
use sizing::Subject;
use sizing::growth::Body;
use sizing::trial::{ObservationKind, RoomBox, Seen, UsedKind};
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
    /// Which minute since puncture it is.
    Minute,
    /// What was seen of the open device, as a number.
    Observed(ObservationKind, Subject),
    /// How many days after the procedure it is.
    Day,
    /// What was seen on that day, as a number.
    Later(ObservationKind, Subject),
    /// The weight and height of the grown child.
    Grown,
    /// An amount that was used; nothing: not noted.
    Used(UsedKind),
    /// The figure of a box of the room.
    Room(RoomBox),
    /// Why an observation, by its name, is set aside.
    WhyAside(String),
    /// The view in which the open device is looked at.
    TrialView,
    /// Why something came of the device that was opened last.
    Because,
    /// Which shapes the ranked list shows.
    Filter,
    /// The file in which the case is saved.
    SaveTo {
        /// Whether the program ends once it is saved.
        leaves: bool,
    },
    /// The file into which the sheet for the team is written.
    SheetTo,
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
        matches!(
            self,
            Self::Reason(..)
                | Self::SaveTo { .. }
                | Self::SheetTo
                | Self::WhyAside(_)
                | Self::TrialView
                | Self::Because
        )
    }
}

impl Prompt {
    /// The question, short enough for a line.
    pub fn title(&self) -> String {
        match self {
            Self::Value(_, quantity) => format!("{quantity}, {}", quantity.unit().symbol()),
            Self::Sd(_, quantity) => format!("SD of {quantity}, {}", quantity.unit().symbol()),
            Self::Reason(_, quantity) => format!("why set aside: {quantity}"),
            Self::Minute => "which minute since puncture it is now".into(),
            Self::Observed(kind, of) | Self::Later(kind, of) => {
                format!("{}, {}", kind.name_of(*of), unit_of(*kind))
            }
            Self::Day => "how many days after the procedure".into(),
            Self::Grown => "the child's later weight in kg and height in cm, such as 7.2 67".into(),
            Self::Used(kind) => format!("{} so far, {}", kind.label(), kind.unit()),
            Self::Room(what) => format!("{}, {}", what.label(), what.unit()),
            Self::WhyAside(_) => "why this observation is set aside".into(),
            Self::TrialView => "the view in which the device is seen".into(),
            Self::Because => "why this happened to the device".into(),
            Self::Filter => "show shapes with".into(),
            Self::SheetTo => "sheet in the file, .pdf, .html or .txt".into(),
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
            Self::Minute => return Ok(Task::Minute(within(text, "min", MOST_MINUTES)?)),
            Self::Observed(kind, of) => {
                let value = of_kind(text, *kind)?;
                trials::observed(model, (*kind, *of), Seen::Value(value), None)?
            }
            Self::Day => return Ok(Task::Day(days(text)?)),
            Self::Later(kind, of) => {
                let value = of_kind(text, *kind)?;
                trials::seen_later(model, (*kind, *of), Seen::Value(value), None)?
            }
            Self::Grown => return Ok(Task::Grown(body(text)?)),
            Self::Used(kind) if text.is_empty() => trials::note_amount(model, *kind, None)?,
            Self::Used(kind) => {
                let value = within(text, kind.unit(), kind.most())?;
                trials::note_amount(model, *kind, Some(value))?
            }
            Self::Room(what) => {
                let value = within(text, what.unit(), what.most().unwrap_or_default())?;
                trials::note_room(model, *what, Some(value))?
            }
            Self::WhyAside(id) => trials::set_aside(model, id, Some(text))?,
            Self::TrialView => trials::with_view(model, text)?,
            Self::Because => trials::with_because(model, text)?,
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
            Self::SheetTo => {
                let to = path(text)?;
                return Ok(Task::Errand(Errand::Sheet(SheetFile { to, over: false })));
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

/// The minutes of a day: no procedure is longer.
const MOST_MINUTES: f64 = 1440.0;

fn unit_of(kind: ObservationKind) -> &'static str {
    kind.unit().map_or("", measurement::Unit::symbol)
}

/// A typed number from 0 on.
fn within(text: &str, unit: &'static str, most: f64) -> Result<f64, Refused> {
    between(text, unit, (0.0, most))
}

/// A typed value of something seen.
fn of_kind(text: &str, kind: ObservationKind) -> Result<f64, Refused> {
    between(text, unit_of(kind), (kind.least(), kind.most()))
}

fn between(text: &str, unit: &'static str, (least, most): (f64, f64)) -> Result<f64, Refused> {
    let value = amount::plain(text, unit).filter(|value| (least..=most).contains(value));
    value.ok_or(Refused::NumberExpected { least, most, unit })
}

/// A hundred years of days.
const MOST_DAYS: f64 = 36_525.0;

/// A typed whole number of days.
fn days(text: &str) -> Result<u32, Refused> {
    let days = within(text, "days", MOST_DAYS)?;
    let whole = format!("{days}").parse();
    whole.map_err(|_| Refused::WholeDaysExpected)
}

/// A typed weight and height.
fn body(text: &str) -> Result<Body, Refused> {
    let mut words = text.split([' ', '/', ';']).filter(|word| !word.is_empty());
    let mut typed = |quantity: Quantity| {
        let info = quantity.info();
        let value = words.next().and_then(|word| amount::plain(word, ""));
        value.filter(|value| (info.least..=info.most).contains(value))
    };
    let weight = typed(Quantity::PATIENT_WEIGHT);
    let height = typed(Quantity::PATIENT_HEIGHT);
    match (weight, height, words.next()) {
        (Some(weight), Some(height), None) => Ok(Body { weight, height }),
        _ => Err(Refused::BodyExpected),
    }
}

fn path(text: &str) -> Result<PathBuf, Refused> {
    match text {
        "" => Err(Refused::PathExpected),
        path => Ok(PathBuf::from(path)),
    }
}
