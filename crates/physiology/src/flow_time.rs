use measurement::{BeatsPerMin, Seconds};

/// The time in which blood runs through an orifice.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FlowTime {
    /// Heart rate.
    pub rate: BeatsPerMin,
    /// Time of flow in each beat: systolic ejection for an arterial valve or a
    /// ventricular defect, diastolic filling for an atrioventricular valve.
    pub period: Seconds,
}

impl FlowTime {
    /// Seconds of flow in a minute; `None` where nothing flows or a beat is shorter than
    /// its time of flow.
    pub(crate) fn per_minute(self) -> Option<Seconds> {
        let seconds = self.rate.value() * self.period.value();
        (0.0 < seconds && seconds <= SECONDS_PER_MINUTE).then_some(Seconds(seconds))
    }
}

const SECONDS_PER_MINUTE: f64 = 60.0;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_flow_longer_than_its_beat_has_no_time() {
        let seconds = |rate, period| {
            let time = FlowTime {
                rate: BeatsPerMin(rate),
                period: Seconds(period),
            };
            time.per_minute().map(Seconds::value)
        };
        assert_eq!(seconds(80.0, 0.25), Some(20.0));
        assert_eq!(seconds(75.0, 0.9), None);
        assert_eq!(seconds(75.0, 0.0), None);
    }
}
