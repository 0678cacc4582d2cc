use crate::circle;
use measurement::{BeatsPerMin, Cm, LPerMin, Ml, Mm, Ratio};

/// Pulsed Doppler at the narrowest place of an outflow tract.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DopplerTract {
    /// Diameter at the place of the sample, in systole.
    pub diameter: Mm,
    /// Velocity-time integral: how far the blood travels in one beat.
    pub velocity_integral: Cm,
}

impl DopplerTract {
    /// Stroke volume through the tract: velocity-time integral × area.
    ///
    /// Assumes a round tract and the same velocity all over it; the diameter's
    /// error counts twice.
    pub fn stroke_volume(self) -> Ml {
        Ml(circle(self.diameter).value() * self.velocity_integral.value())
    }

    /// Flow through the tract: stroke volume × heart rate.
    pub fn flow(self, rate: BeatsPerMin) -> LPerMin {
        LPerMin(self.stroke_volume().value() * rate.value() / ML_PER_L)
    }
}

const ML_PER_L: f64 = 1000.0;

/// Qp:Qs by the stroke volumes of both outflow tracts.
///
/// Right for a defect upstream of the pulmonary outflow tract; with a duct the two tracts
/// are exchanged.
pub fn doppler_qp_qs(pulmonary: DopplerTract, aortic: DopplerTract) -> Ratio {
    pulmonary.stroke_volume() / aortic.stroke_volume()
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn grows_with_the_square_of_the_diameter(d in 3.0..30.0_f64, v in 5.0..40.0_f64) {
            let tract = |d| DopplerTract { diameter: Mm(d), velocity_integral: Cm(v) };
            let ratio = doppler_qp_qs(tract(2.0 * d), tract(d)).value();
            prop_assert!((ratio - 4.0).abs() < 1e-12);
        }
    }
}
