//! Probability integral transform (Dawid 1984, from memory): values seen of truths that
//! were foretold rightly lie evenly in the twentieths of the forecast; where it is too
//! narrow they lie at its ends.

use geometry::Seat;
use measurement::Answer;
use outside::cohort::{Plan, cohort};
use outside::observer::observed;
use outside::page::set;
use outside::sample::{shipped_catalogue, shipped_rules};
use outside::stream::Stream;
use sizing::house_rules::ObservationLaw;
use sizing::look_back::{CaseRecord, LookBack};
use sizing::trial::{Observation, ObservationKind, Seen};
use sizing::{Case, Draws, Subject};

const TRUTHS: usize = 1000;
const DRAWS: usize = 8192;

/// In how many cases what was seen lies in each twentieth, the forecast of every case
/// drawn together to this share of its width.
fn twentieths(narrowed_to: f64) -> [usize; 20] {
    let plan = Plan {
        seed: 20,
        cases: 1,
        rim_too_large_by: 0.0,
    };
    let mut case = cohort(plan).remove(0);
    let trial = &mut case.procedure.trials[0];
    trial.seen.clear();
    trial.seat_as_modelled = Answer::Yes;
    case.procedure.follow_up.clear();
    let forecast = trial.forecast.opened.as_mut().expect("a forecast");
    for foretold in &mut forecast.seen {
        let Some(value) = &mut foretold.value else {
            continue;
        };
        let middle = value.percentiles[9];
        for one in &mut value.percentiles {
            *one = middle + narrowed_to * (*one - middle);
        }
    }
    let mut plain: Case = case.clone();
    plain.procedure.trials.clear();
    let setting = set(plain);
    let rules = shipped_rules();
    let mut laws = rules.observations.iter();
    let law = laws.find(|row| row.what == ObservationKind::Waist);
    let ObservationLaw::Value(law) = law.expect("a law").law else {
        // Fails what is asked of it.
        return [0; 20];
    };
    let catalogue = shipped_catalogue();
    let mut sizes = catalogue.shapes.iter().flat_map(|shape| {
        let sizes = shape.sizes.iter();
        sizes.map(move |size| (format!("{}/{}", shape.id, size.label), size))
    });
    let name = case.procedure.trials[0].size.clone();
    let (_, size) = sizes.find(|(known, _)| *known == name).expect("a size");
    let draws = Draws::new(&setting, DRAWS, 77).expect("draws");
    let mut stream = Stream(3);
    let records = (0..TRUTHS).map(|number| {
        let anatomy = draws.anatomy(stream.place(DRAWS));
        let lent = draws.seat(stream.place(DRAWS));
        let most_left = anatomy.left_slack_share;
        let seat = Seat::drawn(&size.occluder, &anatomy.defect, most_left, 0.0, &lent);
        let Seat::OverLeftOpening(lies) = &seat;
        case.procedure.case_id = Some(format!("simulated-{number:05}"));
        case.procedure.trials[0].seen = vec![Observation {
            id: "s1".to_owned(),
            what: ObservationKind::Waist,
            of: Subject::Shape,
            seen: Seen::Value(observed(&law, lies.waist_diameter, &mut stream)),
            sd: None,
            clock_position: None,
            by: None,
            min: Some(42.0),
            set_aside: None,
        }];
        CaseRecord::of(&case, "", &rules)
    });
    let records: Vec<CaseRecord> = records.collect();
    let found = LookBack::of(&records);
    let mut rows = found.values.iter();
    let row = rows.find(|row| row.what == ObservationKind::Waist);
    row.expect("waists").twentieths.expect("enough of them")
}

fn chi_square(counts: &[usize; 20]) -> f64 {
    let expected = TRUTHS as f64 / 20.0;
    let each = counts.iter().map(|&count| count as f64 - expected);
    each.map(|off| off * off / expected).sum()
}

#[test]
fn what_is_foretold_rightly_is_seen_evenly_and_what_is_too_narrow_at_the_ends() {
    let (right, narrow) = (twentieths(1.0), twentieths(0.5));
    let (of_right, of_narrow) = (chi_square(&right), chi_square(&narrow));
    println!("right {right:?}, χ² {of_right:.1}; too narrow {narrow:?}, χ² {of_narrow:.1}");
    // p > 0.001 of 19 degrees: 43.82.
    assert!(of_right < 43.8, "{right:?}");
    assert!(of_narrow > 43.8, "{narrow:?}");
    // U: a normal drawn together to half has 41 of 100 beyond its outer twentieths.
    let ends = narrow[0] + narrow[19];
    assert!(4 * ends > TRUTHS, "{narrow:?}");
    assert!(
        narrow[0] > 2 * narrow[10] && narrow[19] > 2 * narrow[10],
        "{narrow:?}"
    );
}
