use crate::{Edit, Filter, Refused, Session, Shown, amount};
use measurement::{Quantity, ReadingId};

/// What a field asks for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Prompt {
    /// The value of a reading.
    Value(ReadingId, Quantity),
    /// The standard deviation of a reading; nothing: the house rule's.
    Sd(ReadingId, Quantity),
    /// Why a reading is set aside.
    Reason(ReadingId, Quantity),
    /// Which shapes the ranked list shows.
    Filter,
}

impl Prompt {
    /// The question, short enough for a line.
    pub fn title(&self) -> String {
        match self {
            Self::Value(_, quantity) => format!("{quantity}, {}", quantity.unit().symbol()),
            Self::Sd(_, quantity) => format!("SD of {quantity}, {}", quantity.unit().symbol()),
            Self::Reason(_, quantity) => format!("why set aside: {quantity}"),
            Self::Filter => "show shapes with".into(),
        }
    }

    /// The edit that a typed text asks for; what is wrong with it, otherwise.
    pub(crate) fn read(&self, text: &str, session: &Session) -> Result<Edit, Refused> {
        match self {
            Self::Value(id, quantity) => Ok(Edit::Value(id.clone(), number(*quantity, text)?)),
            Self::Sd(id, _) if text.trim().is_empty() => Ok(Edit::Sd(id.clone(), None)),
            Self::Sd(id, quantity) => match amount::typed(*quantity, text) {
                Some(sd) => Ok(Edit::Sd(id.clone(), Some(sd))),
                None => Err(Refused::new(
                    "expected a number, or nothing for the house rule's",
                )),
            },
            Self::Reason(id, _) => Ok(Edit::SetAside(id.clone(), Some(text.trim().to_owned()))),
            Self::Filter => {
                let shown = session.document().shown();
                let filter = Filter {
                    text: text.trim().to_owned(),
                    ..shown.filter.clone()
                };
                Ok(Edit::Shown(Shown {
                    filter,
                    ..shown.clone()
                }))
            }
        }
    }
}

fn number(quantity: Quantity, text: &str) -> Result<f64, Refused> {
    amount::typed(quantity, text)
        .ok_or_else(|| Refused::new(format!("expected {}", amount::range(quantity))))
}
