/// How much each draw counts: all alike until a trial re-weighs them.
#[derive(Clone, Debug, PartialEq)]
pub struct Weights {
    draws: usize,
    /// `None`: 1 for each draw.
    each: Option<Vec<f64>>,
}

impl Weights {
    /// Weight 1 for each of a number of draws.
    pub const fn uniform(draws: usize) -> Self {
        Self { draws, each: None }
    }

    /// One weight for each draw. `None` where one is negative or not finite, or
    /// all are 0.
    pub fn per_draw(weights: Vec<f64>) -> Option<Self> {
        let sound = weights
            .iter()
            .all(|weight| weight.is_finite() && *weight >= 0.0);
        let some = weights.iter().any(|weight| *weight > 0.0);
        (sound && some).then_some(Self {
            draws: weights.len(),
            each: Some(weights),
        })
    }

    /// How many draws there are.
    pub const fn draws(&self) -> usize {
        self.draws
    }

    /// Whether all draws count alike.
    pub const fn is_uniform(&self) -> bool {
        self.each.is_none()
    }

    /// The weight of a draw; 0 beyond the last.
    pub fn of(&self, draw: usize) -> f64 {
        match &self.each {
            None if draw < self.draws => 1.0,
            None => 0.0,
            Some(each) => each.get(draw).copied().unwrap_or(0.0),
        }
    }

    /// The number of equally weighted draws that would be as sure: (Σw)²/Σw²
    /// (Kish, from memory).
    pub fn effective_draws(&self) -> f64 {
        let Some(each) = &self.each else {
            return self.draws as f64;
        };
        // Taken relative to the largest, so that no square overflows.
        let largest = each.iter().copied().fold(0.0, f64::max);
        let sum: f64 = each.iter().map(|weight| weight / largest).sum();
        let squares: f64 = each
            .iter()
            .map(|weight| (weight / largest) * (weight / largest))
            .sum();
        sum * sum / squares
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn refuses_what_is_no_weight() {
        for bad in [
            vec![],
            vec![0.0, 0.0],
            vec![1.0, -1.0],
            vec![f64::NAN],
            vec![f64::INFINITY],
        ] {
            assert_eq!(Weights::per_draw(bad), None);
        }
    }

    #[test]
    fn one_heavy_draw_is_worth_one() {
        assert_eq!(Weights::uniform(8).effective_draws(), 8.0);
        assert_eq!(
            Weights::per_draw(vec![2.0; 8]).unwrap().effective_draws(),
            8.0
        );
        assert_eq!(
            Weights::per_draw(vec![0.0, 1e300])
                .unwrap()
                .effective_draws(),
            1.0
        );
    }

    #[test]
    fn no_draw_no_weight() {
        assert_eq!(Weights::uniform(2).of(1), 1.0);
        assert_eq!(Weights::uniform(2).of(2), 0.0);
    }
}
