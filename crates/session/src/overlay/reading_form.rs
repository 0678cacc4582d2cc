use super::form::{Form, FormEntry, FormError, FormSubject};
use super::layer::Next;
use super::task::Task;
use crate::{Edit, Model, Refused, amount};
use measurement::{GroupKey, Reading};

/// Everything of one reading, line by line.
pub type ReadingForm = Form<ReadingDraft, ReadingLine>;

/// A reading before its form was filled in.
#[derive(Clone, Debug, PartialEq)]
pub struct ReadingDraft {
    /// The reading as it was opened.
    pub reading: Reading,
    /// Whether it is a new one.
    pub is_new: bool,
}

/// A line of the form of a reading.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ReadingLine {
    /// The value.
    Value,
    /// The standard deviation.
    Sd,
    /// How it was taken.
    Modality,
    /// On which side.
    Side,
    /// When in the cycle.
    Phase,
    /// Between what.
    Method,
}

impl ReadingLine {
    /// Every line, from top to bottom.
    pub const ALL: [Self; 6] = [
        Self::Value,
        Self::Sd,
        Self::Modality,
        Self::Side,
        Self::Phase,
        Self::Method,
    ];

    /// What it asks.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Value => "value",
            Self::Sd => "SD",
            Self::Modality => "by",
            Self::Side => "side",
            Self::Phase => "phase",
            Self::Method => "method",
        }
    }
}

impl ReadingForm {
    pub(crate) fn new(reading: Reading, is_new: bool, value: &str) -> Self {
        let sd = reading.sd.map(|sd| amount::number(reading.quantity, sd));
        let entry = |line| match line {
            ReadingLine::Value => FormEntry::typed(value),
            ReadingLine::Sd => FormEntry::typed(sd.as_deref().unwrap_or_default()),
            ReadingLine::Modality => FormEntry::chosen(reading.modality),
            ReadingLine::Side => FormEntry::chosen(reading.side),
            ReadingLine::Phase => FormEntry::chosen(reading.phase),
            ReadingLine::Method => FormEntry::chosen(reading.method),
        };
        let lines = ReadingLine::ALL.map(|line| (line, entry(line))).to_vec();
        Self::with(ReadingDraft { reading, is_new }, lines)
    }

    /// The question, short enough for a line.
    pub fn title(&self) -> String {
        let quantity = self.of.reading.quantity;
        let new = if self.of.is_new { "new reading: " } else { "" };
        format!("{new}{quantity}, {}", quantity.unit().symbol())
    }

    /// The reading with what is chosen, its value and SD as it was opened.
    pub fn reading(&self) -> Reading {
        let was = self.of.reading.clone();
        Reading {
            modality: self.choice(ReadingLine::Modality).unwrap_or(was.modality),
            side: self.choice(ReadingLine::Side).unwrap_or(was.side),
            phase: self.choice(ReadingLine::Phase).unwrap_or(was.phase),
            method: self.choice(ReadingLine::Method).unwrap_or(was.method),
            ..was
        }
    }

    /// Where the house rules put such a reading: its index among the kinds they
    /// take, the preferred at 0; `None` where they do not take it.
    pub fn preference(&self, model: &Model) -> Option<usize> {
        let (document, reading) = (model.document(), self.reading());
        let (case, rules) = (document.case(), document.rules());
        let rule = sizing::resolve::preference(case, rules, reading.quantity)?;
        let key = GroupKey {
            side: reading.side,
            phase: reading.phase,
            method: reading.method,
        };
        let mut patterns = rule.patterns.iter();
        patterns.position(|pattern| pattern.accepts(&key))
    }
}

impl FormSubject<ReadingLine> for ReadingDraft {
    const NEXT: Next = Next::Question;

    fn read(form: &ReadingForm, model: &Model) -> Result<Task, FormError<ReadingLine>> {
        let quantity = form.of.reading.quantity;
        let value = amount::typed(quantity, &form.text(ReadingLine::Value))
            .ok_or(Refused::OutOfRange(quantity))?;
        let sd = match &*form.text(ReadingLine::Sd) {
            "" => None,
            text => Some(amount::typed(quantity, text).ok_or(Refused::SdOfReadingExpected)?),
        };
        let reading = Reading {
            value,
            sd,
            ..form.reading()
        };
        Ok(Task::Edit(if form.of.is_new {
            Edit::Insert(model.document().case().readings.len(), reading)
        } else {
            Edit::Replace(reading)
        }))
    }
}
