use crate::Diagnostic;
use crate::form::BareWord;
use crate::nearest::nearest;
use crate::place::FieldPlace;
use crate::words::Word;
use measurement::{Quantity, Unit};
use std::collections::BTreeMap;
use std::ops::RangeInclusive;

/// The most faults listed of one file.
const MOST_LISTED: usize = 200;

/// The faults of a form, collected while it is checked.
///
/// Every check gives back some value, so that the next field is checked too; a
/// form with a fault is never used.
#[derive(Debug, Default)]
pub(crate) struct Faults(Vec<Diagnostic>);

/// Names that may stand once, with the line of each.
pub(crate) type LineOfName = BTreeMap<String, usize>;

impl Faults {
    /// The faults in the order of the file, if there are any.
    pub(crate) fn none(mut self) -> Result<(), Vec<Diagnostic>> {
        if self.0.is_empty() {
            return Ok(());
        }
        self.0.sort();
        Err(self.0)
    }

    /// Adds the fault that a value is not what was expected.
    pub(crate) fn add(
        &mut self,
        at: &FieldPlace,
        expected: impl AsRef<str>,
        remedy: impl AsRef<str>,
    ) {
        let found = at.text();
        self.say(
            at,
            if found.is_empty() { "nothing" } else { found },
            expected,
            remedy,
        );
    }

    /// Adds a fault in words of its own.
    pub(crate) fn say(
        &mut self,
        at: &FieldPlace,
        found: &str,
        expected: impl AsRef<str>,
        remedy: impl AsRef<str>,
    ) {
        if self.0.len() < MOST_LISTED {
            self.0
                .push(at.fault(found, expected.as_ref(), remedy.as_ref()));
        }
    }

    /// Checks a number against limits; −0 becomes 0.
    pub(crate) fn number(
        &mut self,
        at: &FieldPlace,
        value: f64,
        within: RangeInclusive<f64>,
        unit: &str,
    ) -> f64 {
        // NaN is within no limits.
        if !within.contains(&value) {
            let (least, most) = within.into_inner();
            self.add(
                at,
                format!("a number from {least} to {most}{}", after_space(unit)),
                "",
            );
        }
        value + 0.0
    }

    /// Checks a standard deviation or step: above 0 and at most `most`.
    pub(crate) fn above_zero(&mut self, at: &FieldPlace, value: f64, most: f64, unit: &str) -> f64 {
        if !(value > 0.0 && value <= most) {
            self.add(
                at,
                format!("a number above 0, at most {most}{}", after_space(unit)),
                "",
            );
        }
        value
    }

    /// Checks that a text is not empty.
    pub(crate) fn text(&mut self, at: &FieldPlace, text: String) -> String {
        if text.trim().is_empty() {
            self.add(at, "some text", "");
        }
        text
    }

    /// Checks an id: letters, digits, `-`, `_` and `.`.
    pub(crate) fn name(&mut self, at: &FieldPlace, name: String) -> String {
        let is_name_character =
            |it: char| it.is_ascii_alphanumeric() || matches!(it, '-' | '_' | '.');
        if name.is_empty() || !name.chars().all(is_name_character) {
            self.add(at, "a name of letters, digits, `-`, `_` and `.`", "");
        }
        name
    }

    /// Checks that a name occurs once.
    pub(crate) fn once(&mut self, seen: &mut LineOfName, name: &str, at: &FieldPlace) {
        if let Some(line) = seen.get(name) {
            let remedy = format!("It stands in line {line} already: remove or rename one.");
            self.say(at, &format!("{name} again"), "it once", remedy);
        } else {
            seen.insert(name.to_owned(), at.line());
        }
    }

    /// Reads the value of a word.
    pub(crate) fn word<T: Word>(&mut self, at: &FieldPlace, word: &str) -> T {
        self.known_word(at, word).unwrap_or(T::WORDS[0].1)
    }

    /// The value of a word that is known.
    pub(crate) fn known_word<T: Word>(&mut self, at: &FieldPlace, word: &str) -> Option<T> {
        let value = T::from_word(word);
        if value.is_none() {
            let known = || T::WORDS.iter().map(|(word, _)| *word);
            self.unknown(at, word, known(), one_of(known()));
        }
        value
    }

    /// The value of a word that may be left out.
    pub(crate) fn word_or<T: Word>(
        &mut self,
        at: &FieldPlace,
        word: Option<&BareWord>,
        otherwise: T,
    ) -> T {
        word.map_or(otherwise, |word| self.word(at, &word.0))
    }

    /// The values of a list of words.
    pub(crate) fn words<T: Word>(&mut self, at: &FieldPlace, words: &[BareWord]) -> Vec<T> {
        words
            .iter()
            .enumerate()
            .map(|(index, word)| self.word(&at.item(index), &word.0))
            .collect()
    }

    /// Reads the quantity of an address.
    pub(crate) fn quantity(&mut self, at: &FieldPlace, address: &str) -> Option<Quantity> {
        let quantity = Quantity::from_address(address);
        if quantity.is_none() {
            let known = Quantity::all().map(Quantity::address);
            self.unknown(
                at,
                address,
                known,
                "the address of a quantity, such as \"aortic.rim\"",
            );
        }
        quantity
    }

    /// The quantities of a list of addresses.
    pub(crate) fn quantities(&mut self, at: &FieldPlace, addresses: &[String]) -> Vec<Quantity> {
        let each = addresses.iter().enumerate();
        each.filter_map(|(index, address)| self.quantity(&at.item(index), address))
            .collect()
    }

    /// Checks that a unit is the quantity's own.
    pub(crate) fn unit_of(&mut self, at: &FieldPlace, unit: &str, quantity: Quantity) {
        let own = quantity.unit().word();
        if unit == own {
            return;
        }
        let remedy = if Unit::from_word(unit).is_some() {
            format!("Write the value in {own}: no unit is converted.")
        } else {
            String::new()
        };
        self.add(at, format!("\"{own}\""), remedy);
    }

    /// Adds the fault of a name that is not on the list of known ones.
    pub(crate) fn unknown<'a>(
        &mut self,
        at: &FieldPlace,
        name: &str,
        known: impl IntoIterator<Item = &'a str>,
        expected: impl AsRef<str>,
    ) {
        self.add(at, expected, did_you_mean(name, known));
    }
}

/// Joins words as `a, b or c`.
pub(crate) fn one_of<'a>(words: impl IntoIterator<Item = &'a str>) -> String {
    let mut words: Vec<&str> = words.into_iter().collect();
    match (words.pop(), words.is_empty()) {
        (None, _) => "nothing".to_owned(),
        (Some(only), true) => only.to_owned(),
        (Some(last), false) => format!("{} or {last}", words.join(", ")),
    }
}

/// The question after a misspelt word; empty where nothing is like it.
pub(crate) fn did_you_mean<'a>(word: &str, known: impl IntoIterator<Item = &'a str>) -> String {
    nearest(word, known).map_or_else(String::new, |word| format!("Did you mean {word}?"))
}

fn after_space(unit: &str) -> String {
    if unit.is_empty() {
        String::new()
    } else {
        format!(" {unit}")
    }
}
