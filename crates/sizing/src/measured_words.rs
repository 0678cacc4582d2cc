//! A resolved value as people read it.

use crate::resolve::Resolved;
use crate::words;
use measurement::Unit;

impl Resolved {
    /// Its value with its standard deviation and unit, in no more digits than are
    /// measured: `1.7 ± 0.4 mm`; of an assumption what is assumed. `None` where it has
    /// no value of its own.
    pub fn value_says(&self) -> Option<String> {
        let (quantity, law) = (self.quantity, self.law?);
        if self.selection().is_none() {
            return Some(words::assumed(law, quantity.unit()));
        }
        // A standard deviation of years is no age.
        if quantity.unit() == Unit::Years {
            return Some(words::amount(quantity, law.nominal()));
        }
        let value = words::number(quantity, law.nominal());
        let sd = words::number(quantity, law.sd());
        let unit = match quantity.unit() {
            Unit::Ratio => "",
            unit => unit.symbol(),
        };
        Some(format!("{value} ± {sd} {unit}").trim_end().to_owned())
    }
}
