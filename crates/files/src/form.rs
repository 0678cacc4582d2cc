//! Parts of the forms into which files are read before they are checked.

use serde::Deserialize;
use serde::de::value::{MapAccessDeserializer, SeqAccessDeserializer};
use serde::de::{Deserializer, Error, MapAccess, SeqAccess, Visitor};
use std::fmt;
use std::marker::PhantomData;

/// A word without quotes. Which words are known is checked later, so that all
/// faults of a file are found at once.
#[derive(Debug)]
pub(crate) struct BareWord(pub(crate) String);

impl<'de> Deserialize<'de> for BareWord {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct OneWord;
        impl Visitor<'_> for OneWord {
            type Value = BareWord;
            fn expecting(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
                formatter.write_str("a word without quotes")
            }
            fn visit_str<E: Error>(self, word: &str) -> Result<BareWord, E> {
                Ok(BareWord(word.to_owned()))
            }
        }
        deserializer.deserialize_identifier(OneWord)
    }
}

/// The entries of a map in the order of the file, none lost to a key that stands
/// twice.
#[derive(Debug)]
pub(crate) struct Entries<T>(pub(crate) Vec<(String, T)>);

impl<T> Default for Entries<T> {
    fn default() -> Self {
        Self(Vec::new())
    }
}

impl<'de, T: Deserialize<'de>> Deserialize<'de> for Entries<T> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct InOrder<T>(PhantomData<T>);
        impl<'de, T: Deserialize<'de>> Visitor<'de> for InOrder<T> {
            type Value = Entries<T>;
            fn expecting(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
                formatter.write_str("a map")
            }
            fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Entries<T>, A::Error> {
                let mut entries = Vec::new();
                while let Some(entry) = map.next_entry()? {
                    entries.push(entry);
                }
                Ok(Entries(entries))
            }
        }
        deserializer.deserialize_map(InOrder(PhantomData))
    }
}

/// Numbers one by one, `[3, 3.5]`, or by a rule, `(from: 3, to: 8, step: 0.5)`.
#[derive(Debug)]
pub(crate) enum ListOr<Rule> {
    List(Vec<f64>),
    Rule(Rule),
}

impl<'de, Rule: Deserialize<'de>> Deserialize<'de> for ListOr<Rule> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Either<Rule>(PhantomData<Rule>);
        impl<'de, Rule: Deserialize<'de>> Visitor<'de> for Either<Rule> {
            type Value = ListOr<Rule>;
            fn expecting(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
                formatter.write_str("a list in `[ ]` or a rule with named fields")
            }
            fn visit_seq<A: SeqAccess<'de>>(self, list: A) -> Result<Self::Value, A::Error> {
                Vec::deserialize(SeqAccessDeserializer::new(list)).map(ListOr::List)
            }
            fn visit_map<A: MapAccess<'de>>(self, rule: A) -> Result<Self::Value, A::Error> {
                Rule::deserialize(MapAccessDeserializer::new(rule)).map(ListOr::Rule)
            }
        }
        deserializer.deserialize_any(Either(PhantomData))
    }
}
