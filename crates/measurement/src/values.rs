use crate::Quantity;

/// A map from quantities to values, each in the quantity's unit.
#[derive(Clone, Debug, PartialEq)]
pub struct Values {
    each: [Option<f64>; Quantity::COUNT],
}

impl Values {
    /// An empty map.
    pub const fn new() -> Self {
        Self {
            each: [None; Quantity::COUNT],
        }
    }

    /// The value of a quantity, if the map has one.
    pub const fn get(&self, quantity: Quantity) -> Option<f64> {
        self.each[quantity.index()]
    }

    /// Sets the value of a quantity.
    pub const fn set(&mut self, quantity: Quantity, value: f64) {
        self.each[quantity.index()] = Some(value);
    }
}

impl Default for Values {
    fn default() -> Self {
        Self::new()
    }
}
