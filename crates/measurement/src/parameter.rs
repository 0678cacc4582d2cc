//! Parameters: single numbers that a file of rules gives, each with its unit and range.

use crate::Unit;

/// The name, unit and range of a parameter.
#[derive(Debug)]
pub struct ParameterInfo<P> {
    /// The parameter.
    pub parameter: P,
    /// The parameter's word in files.
    pub name: &'static str,
    /// The parameter in a phrase.
    pub label: &'static str,
    /// The parameter's unit.
    pub unit: Unit,
    /// The smallest value accepted.
    pub least: f64,
    /// The largest value accepted.
    pub most: f64,
}

/// A list of parameters, made by [`parameters!`](crate::parameters).
pub trait ParameterList: Copy + 'static {
    /// The name, unit and range of each parameter, at its own index.
    const LIST: &'static [ParameterInfo<Self>];

    /// The parameter's index in the list.
    fn position(self) -> usize;
}

/// Makes an enum of parameters with its table, one row to each: variant, word in
/// files, unit, range, phrase.
#[macro_export]
macro_rules! parameters {
    (
        $(#[$doc:meta])* $type:ident:
        $($name:ident $word:literal, $unit:ident, $least:literal to $most:literal, $label:literal;)+
    ) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
        pub enum $type {
            $(#[doc = concat!("`", $word, "`: ", $label, ".")] $name,)+
        }

        impl $type {
            /// Every parameter, each at its own index.
            pub const ALL: &'static [$crate::ParameterInfo<Self>] = &[$(
                $crate::ParameterInfo {
                    parameter: Self::$name,
                    name: $word,
                    label: $label,
                    unit: $crate::Unit::$unit,
                    least: $least,
                    most: $most,
                },
            )+];

            /// Index of the parameter in the list.
            pub const fn index(self) -> usize {
                self as usize
            }

            /// The parameter of a word in files.
            pub fn named(word: &str) -> Option<&'static $crate::ParameterInfo<Self>> {
                Self::ALL.iter().find(|info| info.name == word)
            }

            /// Name, unit and range of the parameter.
            pub const fn info(self) -> &'static $crate::ParameterInfo<Self> {
                &Self::ALL[self.index()]
            }
        }

        impl $crate::ParameterList for $type {
            const LIST: &'static [$crate::ParameterInfo<Self>] = Self::ALL;

            fn position(self) -> usize {
                self.index()
            }
        }
    };
}
