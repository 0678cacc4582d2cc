use super::groups::groups;
use super::order::order;
use crate::house_rules::Band;
use crate::{Candidate, Chances, Judged, Outcome, Sheath, Size, State, Subject, Verdict};
use geometry::{Occluder, Waist};
use measurement::{BlockShares, Chance};

/// A candidate of a verdict, with shares of its blocks and a margin to its stop.
fn candidate(place: usize, verdict: Verdict, shares: [f64; 8], margin: f64) -> Candidate {
    let no_stop = BlockShares(shares);
    let none = Chance {
        value: 0.0,
        error: 0.0,
    };
    Candidate {
        place,
        shape: "shape".into(),
        shape_name: "a shape".into(),
        size: Size {
            label: place.to_string(),
            occluder: Occluder {
                waist: Waist {
                    diameter: 5.0,
                    length: 3.0,
                },
                discs: [None, None],
                conformability: 0.0,
                braid_angle: 0.0,
            },
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
            no_caution: none,
        }),
        outcomes: vec![Outcome {
            check: "clearance",
            title: "clearance",
            of: Subject::Shape,
            unit: "mm",
            scale: 1.0,
            state: State::Ok,
            value: Some(margin),
            stop: Band {
                low: Some(0.0),
                high: None,
            },
            caution: Band::NONE,
            chance: None,
            missing: Vec::new(),
            says: String::new(),
            aside: None,
        }],
    }
}

fn places(mut candidates: Vec<Candidate>) -> Vec<usize> {
    candidates.sort_by(order);
    candidates.iter().map(|one| one.place).collect()
}

#[test]
fn verdict_comes_before_chance_and_chance_before_margin() {
    let ordered = places(vec![
        candidate(0, Verdict::Tight, [0.99; 8], 3.0),
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
    let ordered = [
        candidate(0, Verdict::Fits, noisy, 1.0),
        candidate(1, Verdict::Fits, near, 1.0),
        candidate(2, Verdict::Fits, lower, 1.0),
        candidate(3, Verdict::Tight, lower, 1.0),
    ];
    assert_eq!(groups(&ordered, 2.36), [1, 1, 2, 3]);
}
