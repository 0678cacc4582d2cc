/// The unit of a number: of a quantity, a check, a parameter or a figure.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Unit {
    /// Millimetres.
    Mm,
    /// Centimetres, for body height and velocity integrals.
    Cm,
    /// Kilograms.
    Kg,
    /// Years.
    Years,
    /// Degrees.
    Degrees,
    /// Metres per second.
    MPerS,
    /// Millimetres of mercury.
    MmHg,
    /// A ratio without unit.
    Ratio,
    /// Per cent, of a saturation or of inspired gas.
    Percent,
    /// Grams in a decilitre, of haemoglobin.
    GPerDl,
    /// Millilitres a minute for each square metre of body surface.
    MlPerMinM2,
    /// Beats a minute.
    PerMin,
    /// A share of a whole, from 0 to 1; shown in per cent.
    Share,
    /// A grade: 0 none, 1 mild, 2 moderate, 3 severe.
    Grade,
    /// Standard deviations.
    Sd,
    /// Standard errors.
    Se,
    /// Square metres, of body surface.
    SquareMetres,
    /// Litres a minute.
    LPerMin,
    /// Litres a minute for each square metre of body surface.
    LPerMinM2,
    /// Wood units, of this body.
    Wood,
    /// Wood units indexed to body surface.
    WoodM2,
    /// A number without a written unit: a ratio or a z-score of the work-up.
    Bare,
}

impl Unit {
    /// The symbol, as in files and on screens.
    pub const fn symbol(self) -> &'static str {
        match self {
            Self::Mm => "mm",
            Self::Cm => "cm",
            Self::Kg => "kg",
            Self::Years => "years",
            Self::Degrees => "deg",
            Self::MPerS => "m/s",
            Self::MmHg => "mmHg",
            Self::Ratio => "ratio",
            Self::Percent => "%",
            Self::GPerDl => "g/dL",
            Self::MlPerMinM2 => "mL/min/m2",
            Self::PerMin => "/min",
            Self::Share => "share",
            Self::Grade => "grade",
            Self::Sd => "SD",
            Self::Se => "SE",
            Self::SquareMetres => "m²",
            Self::LPerMin => "L/min",
            Self::LPerMinM2 => "L/min/m²",
            Self::Wood => "WU",
            Self::WoodM2 => "WU·m²",
            Self::Bare => "",
        }
    }

    /// Other units that a person may type instead, each with its size in this unit: an
    /// infant is weeks old and weighs grams. A year has 365.25
    /// days, a month a twelfth of that. Lengths have none: a slip of a unit is a
    /// slip of the size.
    pub const fn also(self) -> &'static [(&'static str, f64)] {
        const DAY: f64 = 1.0 / 365.25;
        const MONTH: f64 = 1.0 / 12.0;
        match self {
            Self::Years => &[
                ("months", MONTH),
                ("month", MONTH),
                ("mos", MONTH),
                ("mo", MONTH),
                ("weeks", 7.0 * DAY),
                ("week", 7.0 * DAY),
                ("wks", 7.0 * DAY),
                ("wk", 7.0 * DAY),
                ("days", DAY),
                ("day", DAY),
                ("d", DAY),
                ("year", 1.0),
                ("yrs", 1.0),
                ("yr", 1.0),
                ("y", 1.0),
            ],
            Self::Kg => &[("g", 0.001)],
            Self::Degrees => &[("°", 1.0), ("degrees", 1.0)],
            _ => &[],
        }
    }
}

impl std::fmt::Display for Unit {
    fn fmt(&self, formatter: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        formatter.write_str(self.symbol())
    }
}
