use crate::Selection;

/// Correlation between a rim and the axis of the opening it starts from, where
/// both were read on the same images: of one name and one modality.
///
/// On one image the rim's inner end and the axis's outer end are one mark on one
/// edge: set outward by ε it makes the axis longer and the rim shorter by ε. If
/// all ends of a calliper err alike and alone, two such readings correlate by
/// `rho` = −½. With weights w, standard deviations u of the readings and U of
/// the fused values,
///
/// `cov(Σ w_r x_r, Σ w_e x_e) = Σ w_r w_e rho u_r u_e` over pairs on one image,
///
/// divided by `U_r U_e` and held within ±1. 0 where a value has no doubt or no
/// image is shared. Leaves out that one mark may serve several images.
pub fn shared_edge_correlation(rim: &Selection, edge: &Selection, rho: f64) -> f64 {
    let fused = rim.fused.sd * edge.fused.sd;
    if fused <= 0.0 {
        return 0.0;
    }
    let mut covariance = 0.0;
    for of_rim in &rim.terms {
        for of_edge in &edge.terms {
            if of_rim.image.is_some()
                && of_rim.image == of_edge.image
                && of_rim.modality == of_edge.modality
            {
                covariance += rho * (of_rim.weight * of_rim.sd) * (of_edge.weight * of_edge.sd);
            }
        }
    }
    (covariance / fused).clamp(-1.0, 1.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fusion::tests::reading;
    use crate::{Choose, Corrected, GroupPattern, Modality, Preference, Reading, select};

    fn selection(images: &[Option<&str>], sd: f64) -> Selection {
        let readings: Vec<Reading> = images
            .iter()
            .enumerate()
            .map(|(i, image)| Reading {
                image: image.map(Into::into),
                ..reading(&format!("r{i}"))
            })
            .collect();
        let corrected: Vec<Corrected> = readings
            .iter()
            .map(|reading| Corrected {
                reading,
                value: 5.0,
                sd,
            })
            .collect();
        let any = Preference {
            patterns: vec![GroupPattern::default()],
            choose: Choose::Largest,
        };
        select(&corrected, &any, 2.0).unwrap()
    }

    #[test]
    fn one_image_for_both_gives_rho() {
        let (rim, axis) = (selection(&[Some("a")], 0.7), selection(&[Some("a")], 0.4));
        assert!((shared_edge_correlation(&rim, &axis, -0.5) + 0.5).abs() < 1e-15);
    }

    #[test]
    fn other_images_or_none_give_nothing() {
        let rim = selection(&[Some("a"), None], 0.7);
        let axis = selection(&[Some("b"), None], 0.4);
        assert_eq!(shared_edge_correlation(&rim, &axis, -0.5), 0.0);
    }

    #[test]
    fn one_name_in_two_modalities_is_two_images() {
        let rim = selection(&[Some("long axis")], 0.7);
        let mut axis = rim.clone();
        axis.terms[0].modality = Modality::Angiography;
        assert_ne!(shared_edge_correlation(&rim, &rim, -0.5), 0.0);
        assert_eq!(shared_edge_correlation(&rim, &axis, -0.5), 0.0);
    }

    #[test]
    fn a_reading_on_another_image_dilutes_it() {
        // Two like readings each: U = u/√2, w = ½; one pair of four shared:
        // −½·¼u² / (½u²) = −¼. Both pairs shared: −½.
        let axis = selection(&[Some("a"), Some("b")], 0.5);
        let one = selection(&[Some("a"), Some("c")], 0.5);
        assert!((shared_edge_correlation(&one, &axis, -0.5) + 0.25).abs() < 1e-12);
        assert!((shared_edge_correlation(&axis, &axis, -0.5) + 0.5).abs() < 1e-12);
    }

    #[test]
    fn no_doubt_no_correlation() {
        let exact = selection(&[Some("a")], 0.0);
        assert_eq!(shared_edge_correlation(&exact, &exact, -0.5), 0.0);
    }
}
