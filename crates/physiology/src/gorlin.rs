use measurement::{BeatsPerMin, LPerMin, MmHg, Seconds, SquareCm};

/// How long an orifice is flowed through.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FlowTime {
    /// Heart rate.
    pub rate: BeatsPerMin,
    /// In each beat: systolic ejection for an arterial valve or a ventricular
    /// defect, diastolic filling for an atrioventricular valve.
    pub period: Seconds,
}

impl FlowTime {
    /// Seconds of flow in a minute; `None` where nothing flows or a beat is
    /// shorter than its part.
    pub fn per_minute(self) -> Option<Seconds> {
        let seconds = self.rate.value() * self.period.value();
        (0.0 < seconds && seconds <= SECONDS_PER_MINUTE).then_some(Seconds(seconds))
    }
}

const SECONDS_PER_MINUTE: f64 = 60.0;

const ML_PER_L: f64 = 1000.0;

/// Gorlin's constant, cm/s per √mmHg: a discharge coefficient and the square root
/// of twice gravity in one.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum GorlinConstant {
    /// 44.3: the aortic valve. Against a loss-free jet of blood a discharge
    /// coefficient of 0.88.
    Aortic,
    /// 37.7 = 0.85 × 44.3: the mitral valve. A discharge coefficient of 0.75.
    Mitral,
}

impl GorlinConstant {
    /// The constant, cm/s per √mmHg.
    pub const fn value(self) -> f64 {
        match self {
            Self::Aortic => 44.3,
            Self::Mitral => 37.7,
        }
    }
}

/// Area of a valve by Gorlin: flow / (constant × seconds of flow a minute × √mean
/// gradient).
///
/// Gorlin, Am Heart J 1951;41:1-29, doi 10.1016/0002-8703(51)90002-6 (from
/// memory). `None` without flow time or gradient. Assumes no regurgitation;
/// found in adults, and too small an area at low flow (from memory).
pub fn gorlin_area(
    flow: LPerMin,
    time: FlowTime,
    mean_gradient: MmHg,
    constant: GorlinConstant,
) -> Option<SquareCm> {
    let seconds = time.per_minute()?.value();
    if mean_gradient <= MmHg(0.0) {
        return None;
    }
    let speed = constant.value() * mean_gradient.value().sqrt();
    Some(SquareCm(flow.value() * ML_PER_L / (seconds * speed)))
}

#[cfg(test)]
mod tests {
    use super::*;

    const TIME: FlowTime = FlowTime {
        rate: BeatsPerMin(75.0),
        period: Seconds(0.33),
    };

    #[test]
    fn no_gradient_or_no_time_no_area() {
        let area = |time, gradient| {
            gorlin_area(LPerMin(5.0), time, MmHg(gradient), GorlinConstant::Aortic)
        };
        assert!(area(TIME, 30.0).is_some());
        assert_eq!(area(TIME, 0.0), None);
        let too_long = FlowTime {
            period: Seconds(0.9),
            ..TIME
        };
        assert_eq!(area(too_long, 30.0), None);
    }

    #[test]
    fn four_times_the_gradient_half_the_area() {
        let area = |gradient| {
            gorlin_area(LPerMin(5.0), TIME, MmHg(gradient), GorlinConstant::Mitral)
                .unwrap()
                .value()
        };
        assert!((area(9.0) - 2.0 * area(36.0)).abs() < 1e-15);
    }
}
