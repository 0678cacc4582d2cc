use super::order::order;
use super::shown_first;
use crate::house_rules::Band;
use crate::{Candidate, Chances, Harm, Judged, Outcome, Sheath, Size, State, Verdict, bare};
use measurement::BlockShares;

/// The quantile of your centre's tie.
const TIE: f64 = 2.36;

/// A candidate of a verdict, with shares of its blocks and a margin to its stop;
/// without a draw that breaks no caution.
fn candidate(place: usize, verdict: Verdict, shares: [f64; 8], margin: f64) -> Candidate {
    cautioned(place, verdict, shares, [0.0; 8], margin)
}

/// The same with the shares in which no caution is broken.
fn cautioned(
    place: usize,
    verdict: Verdict,
    shares: [f64; 8],
    no_caution: [f64; 8],
    margin: f64,
) -> Candidate {
    let of = |shares| BlockShares::from_weights(shares, [1.0; 8]);
    let no_stop = of(shares);
    Candidate {
        place,
        shape: "shape".into(),
        shape_name: "a shape".into(),
        size: Size {
            label: place.to_string(),
            occluder: bare::occluder(),
            sheath: Sheath {
                french: 4.0,
                outer_diameter: None,
            },
        },
        turn: 0.0,
        judged: Judged {
            verdict,
            because: Vec::new(),
        },
        chances: Some(Chances {
            no_stop,
            chance: no_stop.chance(4096.0),
            no_caution: of(no_caution),
            chance_no_caution: of(no_caution).chance(4096.0),
        }),
        holds: None,
        is_case_rated: true,
        is_case_excluded: false,
        chance_limits: [0.5, 0.9],
        outcomes: vec![Outcome {
            value: Some(margin),
            stop: Band {
                low: Some(0.0),
                high: None,
            },
            ..bare::outcome(State::Ok, Harm::AorticOrMitralValve, "")
        }],
        is_on_shelf: true,
    }
}

fn places(mut candidates: Vec<Candidate>) -> Vec<usize> {
    order(&mut candidates, TIE);
    candidates.iter().map(|one| one.place).collect()
}

#[test]
fn verdict_comes_before_chance_and_chance_before_margin() {
    let ordered = places(vec![
        candidate(0, Verdict::Borderline, [0.99; 8], 3.0),
        candidate(1, Verdict::Fits, [0.91; 8], 0.1),
        candidate(2, Verdict::Fits, [0.95; 8], 0.05),
        candidate(3, Verdict::Fits, [0.95; 8], 0.2),
    ]);
    assert_eq!(ordered, [3, 2, 1, 0]);
}

#[test]
fn among_what_does_not_fit_the_nearest_stands_on_top() {
    let ordered = places(vec![
        candidate(0, Verdict::DoesNotFit, [0.4; 8], -2.0),
        candidate(1, Verdict::DoesNotFit, [0.1; 8], -0.5),
    ]);
    assert_eq!(ordered, [1, 0]);
}

#[test]
fn what_is_alike_keeps_the_order_of_the_catalogue() {
    let alike = |place| candidate(place, Verdict::Fits, [0.95; 8], 1.0);
    assert_eq!(places(vec![alike(2), alike(0), alike(1)]), [0, 1, 2]);
}

#[test]
fn a_group_holds_what_cannot_be_told_from_its_first() {
    let noisy = [0.90, 0.92, 0.91, 0.89, 0.93, 0.90, 0.91, 0.92];
    let mut near = noisy;
    near[0] += 0.02;
    near[1] -= 0.02;
    let lower = noisy.map(|share| share - 0.05);
    let mut ordered = [
        candidate(0, Verdict::Fits, noisy, 1.0),
        candidate(1, Verdict::Fits, near, 1.0),
        candidate(2, Verdict::Fits, lower, 1.0),
        candidate(3, Verdict::Borderline, lower, 1.0),
    ];
    assert_eq!(order(&mut ordered, TIE), [1, 1, 2, 3]);
}

#[test]
fn what_the_draws_cannot_tell_apart_leaves_the_margin_to_decide() {
    let no_caution = [0.90, 0.92, 0.91, 0.89, 0.93, 0.90, 0.91, 0.92];
    let mut as_good = no_caution;
    as_good.swap(0, 1);
    as_good[2] += 0.01;
    let fits = |place, shares, no_caution, margin| {
        cautioned(place, Verdict::Fits, shares, no_caution, margin)
    };
    let ordered = places(vec![
        fits(0, [1.0; 8], as_good, 0.3),
        fits(1, [1.0; 8], no_caution, 0.9),
        fits(2, [1.0; 8], no_caution.map(|share| share - 0.05), 2.0),
    ]);
    assert_eq!(ordered, [1, 0, 2]);
}

#[test]
fn of_one_chance_the_one_with_fewer_warnings_comes_before_the_wider_margin() {
    let fits = |place, no_caution, margin| {
        cautioned(place, Verdict::Fits, [0.95; 8], [no_caution; 8], margin)
    };
    let ordered = places(vec![
        fits(0, 0.2, 3.0),
        fits(1, 0.8, 0.5),
        fits(2, 0.5, 1.0),
    ]);
    assert_eq!(ordered, [1, 2, 0]);
}

/// Before any draw the margin decides, and no size can be told to be as good as another.
#[test]
fn without_chances_the_margin_decides_and_each_stands_alone() {
    let undrawn = |place, margin| Candidate {
        chances: None,
        ..candidate(place, Verdict::Borderline, [0.0; 8], margin)
    };
    let mut list = [undrawn(0, 0.2), undrawn(1, 0.9), undrawn(2, 0.9)];
    assert_eq!(order(&mut list, TIE), [1, 2, 3]);
    assert_eq!(list.map(|one| one.place), [1, 2, 0]);
    // What was drawn stands before what was not, however small its chance.
    let small = candidate(3, Verdict::Borderline, [0.01; 8], 0.1);
    assert_eq!(places(vec![undrawn(0, 0.9), small]), [3, 0]);
    let cautious = cautioned(3, Verdict::Borderline, [0.0; 8], [0.01; 8], 0.1);
    assert_eq!(places(vec![undrawn(0, 0.9), cautious]), [3, 0]);
}

#[test]
fn a_chance_that_is_higher_by_one_draw_comes_first() {
    let one_draw_less = [1.0, 1.0, 1.0, 511.0 / 512.0, 1.0, 1.0, 1.0, 1.0];
    let ordered = places(vec![
        candidate(0, Verdict::Fits, one_draw_less, 2.0),
        candidate(1, Verdict::Fits, [1.0; 8], 0.5),
    ]);
    assert_eq!(ordered, [1, 0]);
}

#[test]
fn the_order_does_not_hang_on_the_order_before() {
    // A chain: each tied with the next, the first not with the last.
    let noise = [0.01, -0.01, 0.01, -0.01, 0.01, -0.01, 0.01, -0.01];
    let chain: Vec<Candidate> = (0..6)
        .map(|place| {
            let share = 0.95 - 0.006 * place as f64;
            let sign = if place % 2 == 0 { 1.0 } else { -1.0 };
            let shares = noise.map(|off| share + sign * off);
            candidate(place, Verdict::Fits, shares, 0.1 * place as f64)
        })
        .collect();
    let expected = places(chain.clone());
    for turn in 0..chain.len() {
        let mut turned = chain.clone();
        turned.rotate_left(turn);
        assert_eq!(places(turned.clone()), expected);
        turned.reverse();
        assert_eq!(places(turned), expected);
    }
}

#[test]
fn two_shapes_are_shown_first_and_two_sizes_where_there_is_one_shape() {
    let mut list: Vec<Candidate> = (0..4)
        .map(|place| candidate(place, Verdict::Fits, [0.9; 8], 1.0))
        .collect();
    let places = |list: &[Candidate]| -> Vec<usize> {
        shown_first(list.iter())
            .iter()
            .map(|one| one.place)
            .collect()
    };
    assert_eq!(places(&list), [0, 1]);
    assert_eq!(places(&list[..1]), [0]);
    assert!(places(&[]).is_empty());
    list[2].shape = "another".into();
    assert_eq!(places(&list), [0, 2]);
}
