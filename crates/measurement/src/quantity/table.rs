//! The table of quantities. Rows may be added at any place; a row's Sobol
//! dimension is given once and never changed or used again, so that the draws of
//! every other quantity stay as they were.

/// A part of the table. Each row gives the quantity's constant, address and label;
/// structure, feature, unit and law, range, fine and coarse step, and Sobol
/// dimension; why it is asked for; how it is measured. A row without sites is asked for
/// at every site.
macro_rules! quantities {
    ($rows:ident from $first:expr; $(
        $name:ident = $address:literal, $label:literal;
        $structure:ident $(($valve:ident))? $feature:ident, $unit:ident $law:ident,
        $least:literal to $most:literal by $fine:literal or $coarse:literal,
        dimension $dimension:literal $(, at $($site:ident)+)?;
        why $why:literal;
        how $how:literal;
    )+) => {
        /// The order of the rows.
        #[derive(Clone, Copy)]
        #[expect(non_camel_case_types, reason = "named as the constants are")]
        enum Order { $($name),+ }

        impl $crate::Quantity {
            $(
                #[doc = concat!("`", $address, "`: ", $label, ".")]
                pub const $name: Self = Self { index: $first + Order::$name as u8 };
            )+
        }

        pub(super) static $rows: [$crate::QuantityInfo; [$(Order::$name),+].len()] = [$(
            $crate::QuantityInfo {
                structure: $crate::Structure::$structure $(($crate::Valve::$valve))?,
                feature: $crate::Feature::$feature,
                address: $address,
                label: $label,
                unit: $crate::Unit::$unit,
                law: $crate::LawKind::$law,
                least: $least,
                most: $most,
                steps: ($fine, $coarse),
                why: $why,
                how: $how,
                sites: &[$($($crate::Site::$site),+)?],
                dimension: $dimension,
            },
        )+];
    };
}
use quantities;

mod anatomy;
mod circulation;

use super::QuantityInfo;
use anatomy::ANATOMY;
use circulation::CIRCULATION;

/// The index of the first quantity of the circulation.
#[expect(
    clippy::cast_possible_truncation,
    reason = "a table of fewer than 256 rows"
)]
const FIRST_OF_CIRCULATION: u8 = ANATOMY.len() as u8;

/// The number of rows.
pub(super) const COUNT: usize = ANATOMY.len() + CIRCULATION.len();

/// The row at an index: those of the anatomy, then those of the circulation.
pub(super) fn row(index: usize) -> &'static QuantityInfo {
    ANATOMY
        .get(index)
        .unwrap_or_else(|| &CIRCULATION[index - ANATOMY.len()])
}

/// Whether the row at an index is one of the circulation.
pub(super) const fn is_of_circulation(index: usize) -> bool {
    index >= ANATOMY.len()
}
