use crate::Quantity;

/// One value for each quantity that has one, in the quantity's unit.
#[derive(Clone, Debug, PartialEq)]
pub struct Values {
    each: [Option<f64>; Quantity::COUNT],
}

impl Values {
    /// No value for any quantity.
    pub const fn new() -> Self {
        Self {
            each: [None; Quantity::COUNT],
        }
    }

    /// The value of a quantity, if it has one.
    pub const fn get(&self, quantity: Quantity) -> Option<f64> {
        self.each[quantity.index()]
    }

    /// Gives a quantity its value.
    pub const fn set(&mut self, quantity: Quantity, value: f64) {
        self.each[quantity.index()] = Some(value);
    }
}

impl Default for Values {
    fn default() -> Self {
        Self::new()
    }
}
