//! Units of the bedside, each a type of its own, with the operators that have a meaning.

use std::ops::{Add, Div, Mul, Neg, Sub};

/// A number whose type is its unit, for functions over several units.
pub trait Amount: Copy {
    /// The amount of a number in this unit.
    fn of(number: f64) -> Self;

    /// The bare number.
    fn number(self) -> f64;
}

macro_rules! unit {
    ($(#[$doc:meta])* $name:ident) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
        pub struct $name(pub f64);

        impl $name {
            /// The bare number.
            pub const fn value(self) -> f64 {
                self.0
            }
        }

        impl Amount for $name {
            fn of(number: f64) -> Self {
                Self(number)
            }

            fn number(self) -> f64 {
                self.0
            }
        }
    };
}

/// Sums, differences, multiples and the ratio of two of a kind.
macro_rules! amount {
    ($($name:ident)+) => {$(
        impl Add for $name {
            type Output = Self;
            fn add(self, other: Self) -> Self {
                Self(self.0 + other.0)
            }
        }

        impl Sub for $name {
            type Output = Self;
            fn sub(self, other: Self) -> Self {
                Self(self.0 - other.0)
            }
        }

        impl Neg for $name {
            type Output = Self;
            fn neg(self) -> Self {
                Self(-self.0)
            }
        }

        impl Mul<f64> for $name {
            type Output = Self;
            fn mul(self, factor: f64) -> Self {
                Self(self.0 * factor)
            }
        }

        impl Mul<Ratio> for $name {
            type Output = Self;
            fn mul(self, factor: Ratio) -> Self {
                Self(self.0 * factor.0)
            }
        }

        impl Div for $name {
            type Output = Ratio;
            fn div(self, other: Self) -> Ratio {
                Ratio(self.0 / other.0)
            }
        }
    )+};
}

/// `left × right = product`, and the two quotients that follow.
macro_rules! product {
    ($left:ident * $right:ident = $product:ident) => {
        impl Mul<$right> for $left {
            type Output = $product;
            fn mul(self, other: $right) -> $product {
                $product(self.0 * other.0)
            }
        }

        impl Div<$left> for $product {
            type Output = $right;
            fn div(self, other: $left) -> $right {
                $right(self.0 / other.0)
            }
        }

        impl Div<$right> for $product {
            type Output = $left;
            fn div(self, other: $right) -> $left {
                $left(self.0 / other.0)
            }
        }
    };
}

unit!(
    /// Millimetres.
    Mm
);
unit!(
    /// Millimetres of mercury.
    MmHg
);
unit!(
    /// Metres per second.
    MPerS
);
unit!(
    /// Litres per minute.
    LPerMin
);
unit!(
    /// Wood units: mmHg·min/L, of this body.
    Wood
);
unit!(
    /// Wood units indexed to body surface: WU·m². To index, multiply by the
    /// surface; the two cannot be added or compared.
    WoodM2
);
unit!(
    /// Square metres of body surface.
    SquareMetres
);
unit!(
    /// Kilograms.
    Kg
);
unit!(
    /// Centimetres, for body height.
    Cm
);
unit!(
    /// Years of age.
    Years
);
unit!(
    /// Degrees of angle.
    Degrees
);
unit!(
    /// Square centimetres of an orifice or of a section.
    SquareCm
);
unit!(
    /// Millilitres.
    Ml
);
unit!(
    /// Grams.
    Grams
);
unit!(
    /// Seconds.
    Seconds
);
unit!(
    /// Heart beats per minute.
    BeatsPerMin
);
unit!(
    /// Per cent, of saturation and of the oxygen breathed in.
    Percent
);
unit!(
    /// Grams per decilitre, of haemoglobin.
    GPerDl
);
unit!(
    /// Millilitres of oxygen in a litre of blood.
    MlPerL
);
unit!(
    /// Millilitres of oxygen taken up in a minute by this body.
    MlPerMin
);
unit!(
    /// Oxygen uptake indexed to body surface: mL/min/m².
    MlPerMinM2
);
unit!(
    /// Flow indexed to body surface: L/min/m². To index, divide by the surface.
    LPerMinM2
);
unit!(
    /// Standard deviations from the mean of healthy children of the same size.
    ZScore
);
unit!(
    /// A number without unit.
    Ratio
);

amount!(Mm MmHg MPerS LPerMin Wood WoodM2 SquareMetres Kg Cm Years Degrees);
amount!(SquareCm Ml Grams Seconds BeatsPerMin Percent GPerDl MlPerL MlPerMin MlPerMinM2 LPerMinM2);
product!(LPerMin * Wood = MmHg);
product!(LPerMinM2 * WoodM2 = MmHg);
product!(Wood * SquareMetres = WoodM2);
product!(LPerMinM2 * SquareMetres = LPerMin);
product!(MlPerMinM2 * SquareMetres = MlPerMin);
product!(MlPerL * LPerMin = MlPerMin);
product!(MlPerL * LPerMinM2 = MlPerMinM2);

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn resistance_is_pressure_over_flow_and_is_indexed_by_multiplying() {
        let resistance = (MmHg(35.0) - MmHg(9.0)) / LPerMin(2.6);
        assert_eq!(resistance, Wood(10.0));
        assert_eq!(resistance * SquareMetres(0.5), WoodM2(5.0));
    }

    #[test]
    fn flow_is_indexed_by_dividing() {
        assert_eq!(LPerMin(1.5) / SquareMetres(0.5), LPerMinM2(3.0));
        assert_eq!((MmHg(30.0) - MmHg(9.0)) / LPerMinM2(3.0), WoodM2(7.0));
        assert_eq!(MlPerMinM2(150.0) / MlPerL(50.0), LPerMinM2(3.0));
    }

    #[test]
    fn two_of_a_kind_give_a_ratio() {
        assert_eq!(LPerMin(5.0) / LPerMin(2.0), Ratio(2.5));
        assert_eq!(Mm(2.0) * Ratio(1.5) + -Mm(1.0), Mm(2.0));
    }
}
