use crate::targeted::Proposal;
use crate::{Blocks, Estimate, Law, Modality, Quantity, Values, normal};
use std::collections::BTreeMap;
use std::ops::Range;
use std::rc::Rc;

/// The joint law of all quantities of a case, from which they are drawn together.
///
/// A Gaussian copula: a quantity with partners has the deviate
/// `z = Σ ρ z_partner + √(1 − Σ ρ²) z_own`, and the value at which its own law has
/// the probability of z. Then a length is multiplied by 1 + Σ share · s · z of
/// its modalities' scale errors, one z for all lengths. Deviates come from the
/// Sobol dimensions of the quantities' names: neither order nor presence of
/// other quantities moves a draw.
#[derive(Clone, Debug, PartialEq)]
pub struct Joint {
    margins: Vec<Margin>,
    /// Standard deviation of each modality's scale, by [`index_of`].
    scale_sd: [f64; MODALITIES],
}

#[derive(Clone, Debug, PartialEq)]
struct Margin {
    quantity: Quantity,
    law: Law,
    /// Index and share of each modality.
    scale_shares: Vec<(usize, f64)>,
    /// Sobol dimension of each partner, and the weight of its deviate.
    partners: Vec<(u32, f64)>,
    /// Weight of the quantity's own deviate.
    own: f64,
}

const MODALITIES: usize = Modality::Bedside as usize + 1;

/// The index of a modality among the scale errors.
const fn index_of(modality: Modality) -> usize {
    modality as usize
}

/// The Sobol dimension of a modality's scale error.
fn scale_dimension(index: usize) -> u32 {
    (Blocks::SCALES..).nth(index).unwrap_or(Blocks::SCALES)
}

impl Joint {
    /// The joint law of estimates, with the relative standard deviation of each
    /// modality's scale; a modality not named has none.
    ///
    /// Correlations with Σ ρ² above 1, which no law has, are shrunk to 1.
    pub fn new(estimates: Vec<Estimate>, scale_sd: Vec<(Modality, f64)>) -> Self {
        let mut by_index = [0.0; MODALITIES];
        for (modality, sd) in scale_sd {
            by_index[index_of(modality)] = sd;
        }
        Self {
            margins: estimates.into_iter().map(Margin::new).collect(),
            scale_sd: by_index,
        }
    }

    /// The value of each quantity as measured, without doubt and scale error.
    pub fn nominal(&self) -> Values {
        let mut values = Values::new();
        for margin in &self.margins {
            values.set(margin.quantity, margin.law.nominal());
        }
        values
    }

    /// The draws of one block: each quantity with its values, in the order of the block's
    /// points.
    pub fn draw(&self, blocks: &Blocks, block: usize) -> Vec<(Quantity, Vec<f64>)> {
        self.draw_toward(blocks, block, &Proposal::none())
    }

    /// The draws of one block from a proposal; each must be weighed by
    /// [`Proposal::log_weight`].
    pub fn draw_toward(
        &self,
        blocks: &Blocks,
        block: usize,
        proposal: &Proposal,
    ) -> Vec<(Quantity, Vec<f64>)> {
        self.draw_some(blocks, block, proposal, |_| true)
    }

    /// The same for some quantities alone.
    pub fn draw_some(
        &self,
        blocks: &Blocks,
        block: usize,
        proposal: &Proposal,
        is_wanted: impl Fn(Quantity) -> bool,
    ) -> Vec<(Quantity, Vec<f64>)> {
        let points = 0..blocks.per_block();
        self.drawn(Deviates::new(blocks, block, points, proposal), is_wanted)
    }

    /// The same at some points of a block, not aimed.
    pub fn draw_points(
        &self,
        blocks: &Blocks,
        block: usize,
        points: Range<usize>,
        is_wanted: impl Fn(Quantity) -> bool,
    ) -> Vec<(Quantity, Vec<f64>)> {
        let none = Proposal::none();
        self.drawn(Deviates::new(blocks, block, points, &none), is_wanted)
    }

    fn drawn(
        &self,
        mut deviates: Deviates,
        is_wanted: impl Fn(Quantity) -> bool,
    ) -> Vec<(Quantity, Vec<f64>)> {
        let wanted: Vec<&Margin> = self
            .margins
            .iter()
            .filter(|margin| is_wanted(margin.quantity))
            .collect();
        let scale: [Option<Vec<f64>>; MODALITIES] = std::array::from_fn(|index| {
            let sd = self.scale_sd[index];
            let is_used = sd > 0.0 && wanted.iter().any(|margin| margin.scales_with(index));
            is_used.then(|| {
                let z = deviates.of(scale_dimension(index));
                z.iter().map(|z| sd * z).collect()
            })
        });
        wanted
            .into_iter()
            .map(|margin| (margin.quantity, margin.draw(&mut deviates, &scale)))
            .collect()
    }

    /// Whether a quantity is drawn alike here and of another joint law, by the same random
    /// numbers to the same values.
    pub fn is_alike(&self, other: &Self, quantity: Quantity) -> bool {
        self.scale_sd == other.scale_sd && self.margin(quantity) == other.margin(quantity)
    }

    fn margin(&self, quantity: Quantity) -> Option<&Margin> {
        self.margins
            .iter()
            .find(|margin| margin.quantity == quantity)
    }
}

impl Joint {
    /// The Sobol dimensions of the quantities' own deviates.
    pub fn dimensions(&self) -> impl Iterator<Item = u32> {
        self.margins
            .iter()
            .map(|margin| margin.quantity.info().dimension)
    }

    /// The scale errors of a modality in one block: the share by which each draw has its
    /// lengths larger than measured; `None` where the modality has no scale error.
    pub fn scale_errors(
        &self,
        blocks: &Blocks,
        block: usize,
        modality: Modality,
    ) -> Option<Vec<f64>> {
        let index = index_of(modality);
        let sd = self.scale_sd[index];
        let is_used = sd > 0.0 && self.margins.iter().any(|margin| margin.scales_with(index));
        let dimension = scale_dimension(index);
        let drawn =
            (0..blocks.per_block()).map(|index| sd * blocks.normal(block, index, dimension));
        is_used.then(|| drawn.collect())
    }
}

/// The normal deviates of one block, each dimension drawn once.
struct Deviates<'a> {
    blocks: &'a Blocks,
    block: usize,
    /// All of the block where the proposal aims any.
    points: Range<usize>,
    proposal: &'a Proposal,
    /// By set of four dimensions.
    uniforms: BTreeMap<u32, [Vec<f64>; 4]>,
    known: BTreeMap<u32, Rc<[f64]>>,
}

impl<'a> Deviates<'a> {
    const fn new(
        blocks: &'a Blocks,
        block: usize,
        points: Range<usize>,
        proposal: &'a Proposal,
    ) -> Self {
        Self {
            blocks,
            block,
            points,
            proposal,
            uniforms: BTreeMap::new(),
            known: BTreeMap::new(),
        }
    }

    fn of(&mut self, dimension: u32) -> Rc<[f64]> {
        let (set, lane) = (dimension / 4, dimension as usize % 4);
        let uniforms = self.uniforms.entry(set).or_insert_with(|| {
            self.blocks
                .some_uniforms(self.block, set, self.points.clone())
        });
        let drawn = self.known.entry(dimension).or_insert_with(|| {
            let deviates = uniforms[lane]
                .iter()
                .map(|&uniform| normal::quantile(uniform));
            let mut deviates: Vec<f64> = deviates.collect();
            self.proposal.aim(dimension, &mut deviates);
            deviates.into()
        });
        Rc::clone(drawn)
    }
}

impl Margin {
    fn new(estimate: Estimate) -> Self {
        let squares: f64 = estimate.partners.iter().map(|(_, rho)| rho * rho).sum();
        let shrink = squares.sqrt().max(1.0);
        Self {
            quantity: estimate.quantity,
            law: estimate.law,
            scale_shares: estimate
                .scale_shares
                .into_iter()
                .map(|(modality, share)| (index_of(modality), share))
                .collect(),
            partners: estimate
                .partners
                .into_iter()
                .map(|(partner, rho)| (partner.info().dimension, rho / shrink))
                .collect(),
            own: (1.0 - squares).max(0.0).sqrt(),
        }
    }

    fn scales_with(&self, index: usize) -> bool {
        self.scale_shares.iter().any(|&(mine, _)| mine == index)
    }

    fn draw(&self, deviates: &mut Deviates, scale: &[Option<Vec<f64>>; MODALITIES]) -> Vec<f64> {
        let own = deviates.of(self.quantity.info().dimension);
        let mut values: Vec<f64> = own.iter().map(|z| self.own * z).collect();
        for &(dimension, weight) in &self.partners {
            let partner = deviates.of(dimension);
            for (z, partner) in values.iter_mut().zip(partner.iter()) {
                *z += weight * partner;
            }
        }
        for z in &mut values {
            *z = self.law.at_normal(*z);
        }
        if self.scale_shares.is_empty() {
            return values;
        }
        let mut errors = vec![0.0; values.len()];
        for &(index, share) in &self.scale_shares {
            let Some(scale) = &scale[index] else { continue };
            for (error, scale) in errors.iter_mut().zip(scale) {
                *error += share * scale;
            }
        }
        for (value, error) in values.iter_mut().zip(errors) {
            // A scale below 0 would give a length the opposite sign.
            *value *= (1.0 + error).max(0.0);
        }
        values
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn quantity(address: &str) -> Quantity {
        Quantity::from_address(address).unwrap()
    }

    fn normal(address: &str, mean: f64, sd: f64) -> Estimate {
        Estimate::alone(quantity(address), Law::Normal { mean, sd })
    }

    fn all_draws(joint: &Joint, quantity: Quantity) -> Vec<f64> {
        let blocks = Blocks::new(8 << 10, 1).unwrap();
        (0..Blocks::COUNT)
            .flat_map(|block| joint.draw(&blocks, block))
            .filter(|(of, _)| *of == quantity)
            .flat_map(|(_, values)| values)
            .collect()
    }

    fn moments(x: &[f64], y: &[f64]) -> (f64, f64, f64) {
        let mean = |of: &[f64]| of.iter().sum::<f64>() / of.len() as f64;
        let (mx, my) = (mean(x), mean(y));
        let product = |a: &[f64], ma: f64, b: &[f64], mb: f64| -> f64 {
            a.iter().zip(b).map(|(p, q)| (p - ma) * (q - mb)).sum()
        };
        let (xx, yy) = (product(x, mx, x, mx), product(y, my, y, my));
        (
            mx,
            (xx / x.len() as f64).sqrt(),
            product(x, mx, y, my) / (xx * yy).sqrt(),
        )
    }

    #[test]
    fn a_partner_correlates_and_leaves_the_margin_alone() {
        let (rim, axis) = (quantity("aortic.rim"), quantity("defect.long_axis"));
        let mut of_rim = normal("aortic.rim", 3.0, 0.6);
        of_rim.partners = vec![(axis, -0.5)];
        for estimates in [
            vec![of_rim.clone(), normal("defect.long_axis", 5.0, 0.4)],
            vec![normal("defect.long_axis", 5.0, 0.4), of_rim.clone()],
        ] {
            let joint = Joint::new(estimates, Vec::new());
            let (mean, sd, correlation) =
                moments(&all_draws(&joint, rim), &all_draws(&joint, axis));
            assert!((mean - 3.0).abs() < 1e-3, "{mean}");
            assert!((sd - 0.6).abs() < 2e-3, "{sd}");
            assert!((correlation + 0.5).abs() < 5e-3, "{correlation}");
        }
    }

    #[test]
    fn impossible_correlations_keep_the_margin() {
        let mut rim = normal("aortic.rim", 0.0, 1.0);
        rim.partners = vec![
            (quantity("defect.long_axis"), -0.9),
            (quantity("defect.short_axis"), 0.9),
        ];
        let draws = all_draws(&Joint::new(vec![rim], Vec::new()), quantity("aortic.rim"));
        assert!((moments(&draws, &draws).1 - 1.0).abs() < 5e-3);
    }

    #[test]
    fn one_scale_error_moves_all_lengths_of_its_modality() {
        let fixed = |address, value, share| Estimate {
            scale_shares: vec![(Modality::Angiography, share)],
            ..Estimate::alone(quantity(address), Law::Fixed(value))
        };
        let joint = Joint::new(
            vec![
                fixed("defect.long_axis", 5.0, 1.0),
                fixed("aortic.rim", 3.0, 0.5),
                Estimate::alone(quantity("defect.short_axis"), Law::Fixed(4.0)),
            ],
            vec![(Modality::Angiography, 0.04)],
        );
        let major = all_draws(&joint, quantity("defect.long_axis"));
        let rim = all_draws(&joint, quantity("aortic.rim"));
        let (_, sd, correlation) = moments(&major, &rim);
        assert!((sd - 0.2).abs() < 1e-3 && (correlation - 1.0).abs() < 1e-12);
        assert!((moments(&rim, &major).1 - 0.06).abs() < 1e-3);
        assert!(
            all_draws(&joint, quantity("defect.short_axis"))
                .iter()
                .all(|value| *value == 4.0)
        );
    }

    #[test]
    fn a_length_stays_at_or_above_zero_under_any_scale() {
        let mut rim = Estimate::alone(
            quantity("aortic.rim"),
            Law::NormalAtLeastZero { mean: 1.0, sd: 1.0 },
        );
        rim.scale_shares = vec![(Modality::Bedside, 1.0)];
        let joint = Joint::new(vec![rim], vec![(Modality::Bedside, 2.0)]);
        assert!(
            all_draws(&joint, quantity("aortic.rim"))
                .iter()
                .all(|value| *value >= 0.0)
        );
    }

    #[test]
    fn some_points_are_drawn_as_in_the_whole_block_and_some_quantities_as_among_all() {
        let (rim, axis) = (quantity("aortic.rim"), quantity("defect.long_axis"));
        let mut of_rim = normal("aortic.rim", 3.0, 0.6);
        of_rim.partners = vec![(axis, -0.5)];
        of_rim.scale_shares = vec![(Modality::Angiography, 1.0)];
        let estimates = vec![of_rim, normal("defect.long_axis", 5.0, 0.4)];
        let joint = Joint::new(estimates, vec![(Modality::Angiography, 0.04)]);
        let blocks = Blocks::new(8 << 7, 5).unwrap();
        let whole = joint.draw(&blocks, 3);
        let some = joint.draw_points(&blocks, 3, 64..100, |_| true);
        for ((of, whole), (same, some)) in whole.iter().zip(&some) {
            assert_eq!((of, &whole[64..100]), (same, some.as_slice()));
        }
        let alone = joint.draw_some(&blocks, 3, &Proposal::none(), |of| of == rim);
        assert_eq!(alone, whole[..1]);
        assert!(!joint.is_alike(&Joint::new(Vec::new(), Vec::new()), axis));
    }

    #[test]
    fn other_quantities_do_not_move_a_draw() {
        let axis = quantity("defect.long_axis");
        let alone = Joint::new(vec![normal("defect.long_axis", 5.0, 0.5)], Vec::new());
        let beside = Joint::new(
            vec![
                normal("wall.thickness", 4.0, 0.5),
                normal("defect.long_axis", 5.0, 0.5),
            ],
            Vec::new(),
        );
        assert_eq!(all_draws(&alone, axis), all_draws(&beside, axis));
    }

    #[test]
    fn nominal_is_as_read() {
        let rim = quantity("aortic.rim");
        let law = Law::NormalAtLeastZero { mean: 0.4, sd: 1.0 };
        let joint = Joint::new(vec![Estimate::alone(rim, law)], Vec::new());
        assert_eq!(joint.nominal().get(rim), Some(0.4));
        assert_eq!(joint.nominal().get(quantity("defect.long_axis")), None);
    }
}
