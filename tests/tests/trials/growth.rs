//! E11: a child at twice the weight, worked out apart from the program with the published
//! formula of Haycock and the tract's own circle segments.

use geometry::OutflowTract;
use measurement::MPerS;
use physiology::cost_of_narrowing;
use sizing::growth::Body;

const TODAY: Body = Body {
    weight: 3.6,
    height: 53.0,
};
const THEN: Body = Body {
    weight: 7.2,
    height: 67.0,
};

/// Haycock, J Pediatr 1978;93:62-66 (place from memory).
#[test]
fn body_surface_and_annuli_grow_as_worked_out() {
    let surface = |body: Body| format!("{:.6}", body.surface().value());
    assert_eq!(surface(TODAY), "0.233165");
    assert_eq!(surface(THEN), "0.371458");
    assert_eq!(format!("{:.6}", TODAY.growth_to(THEN)), "1.262186");
}

/// The z-score of an aortic annulus stays where it was to within 1 %: Pettersen 2008
/// (doi 10.1016/j.echo.2008.02.006, from memory) gives 1.268709 for the same child.
#[test]
fn another_table_grows_alike() {
    let ours = TODAY.growth_to(THEN);
    assert!((ours / 1.268_709 - 1.0).abs() < 0.01, "{ours}");
}

#[test]
fn a_tract_that_grows_round_a_disc_costs_less() {
    let [contraction, least] = [0.8, 0.01];
    let of = |factor: f64| {
        let tract = OutflowTract {
            depth: 7.0 * factor,
            width: 7.6 * factor,
        };
        let open = tract.open_share(3.5, 1.2, 0.6, 1.0);
        let cost = cost_of_narrowing(MPerS(0.99), open, contraction, least);
        (format!("{open:.6}"), format!("{:.4}", cost.value()))
    };
    assert_eq!(of(1.0), ("0.689404".to_owned(), "7.0903".to_owned()));
    let then = of(TODAY.growth_to(THEN));
    assert_eq!(then, ("0.836566".to_owned(), "2.7400".to_owned()));
}
