//! Invented cohorts of cases with a procedure and a follow-up, to look back over.
//!
//! No case is of a child. Each truth is drawn from what the readings leave to be believed,
//! each device takes a seat of its own, and each thing is seen by the law of the shipped
//! rules: a right program foretells it rightly. A planted bias is added to what is read,
//! and to nothing else.

use crate::page::set;
use crate::sample::{case, reading, shipped_catalogue};
use crate::stream::Stream;
use geometry::{Face, Seat, degrees};
use measurement::observation::{Range, ValueLaw};
use measurement::{Answer, Modality, Quantity, Regurgitation, Site, Valve, normal};
use sizing::house_rules::ObservationLaw;
use sizing::measure::{EdgePart, Measure, Situation};
use sizing::trial::{
    CameOfIt, FollowUp, Forecasts, Moment, Observation, ObservationKind, Seen, Trial, foretell,
};
use sizing::{Case, Draws, Neighbour, Setting, Size, Subject, Work};
use std::sync::atomic::AtomicBool;

/// How many cases a cohort has.
pub const CASES: usize = 40;
/// Draws behind a forecast, and among which a truth is found.
const DRAWS: usize = 4096;

/// How a cohort is made.
#[derive(Clone, Copy, Debug)]
pub struct Plan {
    /// Where its random numbers begin.
    pub seed: u64,
    /// How many cases it has.
    pub cases: usize,
    /// By how much every aortic rim is read too large, mm.
    pub rim_too_large_by: f64,
}

/// A cohort: the same for the same plan.
///
/// # Panics
///
/// Where the shipped files do not have what it is made of.
pub fn cohort(plan: Plan) -> Vec<Case> {
    let mut stream = Stream(plan.seed);
    (1..=plan.cases)
        .map(|number| one(number, plan.rim_too_large_by, &mut stream))
        .collect()
}

/// What a case is read as, before any bias.
fn child(stream: &mut Stream) -> Case {
    let long = stream.between(3.0, 6.5);
    let mut readings: Vec<_> = [
        ("defect.long_axis", long, 0.4),
        ("defect.short_axis", long * stream.between(0.7, 1.0), 0.4),
        ("wall.thickness", stream.between(2.5, 5.0), 0.4),
        ("aortic.rim", stream.between(3.0, 7.0), 0.5),
        ("tricuspid.rim", stream.between(4.0, 8.0), 0.5),
        ("aortic.annulus_angle", stream.between(80.0, 110.0), 8.0),
        ("left_outflow.depth", stream.between(9.0, 12.0), 0.4),
        ("left_outflow.width", stream.between(10.0, 13.0), 0.4),
        ("left_outflow.velocity", stream.between(0.9, 1.2), 0.06),
        ("aortic.diameter", 9.5, 0.5),
        ("aortic.diameter_across", 9.0, 0.5),
        ("tricuspid.diameter", 15.0, 0.7),
        ("tricuspid.diameter_across", 13.0, 0.7),
        ("tricuspid.leaflet", 9.0, 0.7),
        ("left_ventricle.length", 34.0, 1.0),
        ("right_ventricle.length", 30.0, 1.0),
        ("vein.diameter", 5.5, 0.4),
    ]
    .map(|(address, value, sd)| reading(address, value, sd))
    .into();
    readings.extend(
        [
            ("defect.rotation", 10.0, 5.0),
            ("aortic.clock_position", 0.0, 5.0),
            ("aortic.cusp_depth", 0.4, 0.1),
            ("tricuspid.clock_position", 100.0, 5.0),
            ("tricuspid.annulus_angle", 90.0, 5.0),
            ("tricuspid.cusp_depth", 0.5, 0.1),
            ("patient.weight", stream.between(8.0, 16.0), 0.1),
        ]
        .map(|(address, value, sd)| reading(address, value, sd)),
    );
    for one in &mut readings {
        one.modality = Modality::TransoesophagealEcho;
        one.value = (100.0 * one.value).round() / 100.0;
    }
    let mut case = case(Site::CentralPerimembranous, readings);
    for absent in ["mitral_valve", "pulmonary_valve", "right_outflow"] {
        let all = Neighbour::ALL.into_iter();
        case.absent.extend(all.filter(|one| one.name() == absent));
    }
    case
}

fn one(number: usize, too_large_by: f64, stream: &mut Stream) -> Case {
    let mut case = child(stream);
    case.title = format!("Invented cohort, case {number}");
    case.procedure.case_id = Some(format!("invented-{number:05}"));
    let setting = set(case.clone());
    let name = fitting(&setting);
    let catalogue = shipped_catalogue();
    let size = find(&catalogue, &name);
    let seen = look(&setting, size, stream);
    for one in &mut case.readings {
        if one.quantity == Quantity::AORTIC_RIM {
            one.value = (100.0 * (one.value + too_large_by)).round() / 100.0;
        }
    }
    let has_slipped = seen
        .iter()
        .any(|one| one.what == ObservationKind::Slips && one.seen == Seen::Answer(Answer::Yes));
    let came_of_it = if has_slipped {
        CameOfIt::Recaptured
    } else {
        CameOfIt::Released
    };
    case.procedure.trials = vec![Trial {
        id: "t1".to_owned(),
        size: name,
        rotation_deg: Some(0.0),
        opened_min: 40.0,
        closed_min: None,
        wire_across: Answer::No,
        cable: sizing::trial::Cable::Slack,
        seat_as_modelled: Answer::Yes,
        view: None,
        seen: Vec::new(),
        came_of_it: None,
        because: None,
        forecast: Forecasts::default(),
    }];
    let never = AtomicBool::new(false);
    let work = Work {
        threads: 2,
        cancel: &never,
    };
    let (as_read, catalogues) = (set(case.clone()), [catalogue]);
    let opened = foretell(
        &as_read,
        &catalogues,
        "t1",
        Moment::Opened,
        (DRAWS, 1),
        &work,
    );
    let trial = &mut case.procedure.trials[0];
    trial.forecast.opened = opened.expect("a trial");
    trial.seen = seen;
    trial.closed_min = Some(55.0);
    trial.came_of_it = Some(came_of_it);
    if came_of_it == CameOfIt::Released {
        case.procedure.follow_up = follow_up(stream);
    }
    case
}

/// The size whose waist is a millimetre over the defect, of those on two even discs.
fn fitting(setting: &Setting) -> String {
    let wanted = setting.anatomy().defect.fit_diameter() + 1.0;
    let catalogue = shipped_catalogue();
    let shape = &catalogue.shapes[0];
    let away = |size: &Size| (size.occluder.waist.diameter - wanted).abs();
    let sizes = shape.sizes.iter();
    let best = sizes.min_by(|one, other| away(one).total_cmp(&away(other)));
    format!("{}/{}", shape.id, best.expect("a size").label)
}

fn find<'a>(catalogue: &'a sizing::Catalogue, name: &str) -> &'a Size {
    let (shape, label) = name.split_once('/').expect("a name");
    let mut shapes = catalogue.shapes.iter();
    let shape = shapes.find(|one| one.id == shape).expect("a shape");
    let mut sizes = shape.sizes.iter();
    sizes.find(|one| one.label == label).expect("a size")
}

/// What is seen of a size in one truth.
fn look(setting: &Setting, size: &Size, stream: &mut Stream) -> Vec<Observation> {
    let draws = Draws::new(setting, DRAWS, 1 + stream.place(1 << 16) as u64).expect("draws");
    let anatomy = draws.anatomy(stream.place(DRAWS));
    let drawn = &draws.seat(stream.place(DRAWS));
    let most_left = anatomy.left_slack_share;
    let seat = Seat::drawn(
        &size.occluder,
        &anatomy.defect,
        most_left,
        degrees(0.0),
        drawn,
    );
    let at = Situation {
        setting,
        size,
        anatomy: &anatomy,
        seat: &seat,
    };
    let Seat::OverLeftOpening(lies) = &seat;
    let lip = [EdgePart::AtHinge, EdgePart::Away]
        .map(|part| Measure::Lip(Face::Left, part).value(&at))
        .into_iter()
        .fold(f64::NAN, f64::min);
    let of_valve = |kind, valve| {
        let modelled = Measure::Clearance(valve).value(&at);
        (kind, Subject::Valve(valve), modelled)
    };
    let all = [
        (ObservationKind::Slips, Subject::Shape, lip),
        of_valve(ObservationKind::Touches, Valve::Aortic),
        of_valve(ObservationKind::Touches, Valve::Tricuspid),
        of_valve(ObservationKind::Regurgitation, Valve::Aortic),
        of_valve(ObservationKind::Distance, Valve::Aortic),
        of_valve(ObservationKind::Distance, Valve::Tricuspid),
        (ObservationKind::EdgeJet, Subject::Shape, lip),
        (
            ObservationKind::Misshapen,
            Subject::Shape,
            -Measure::WaistExcess.value(&at),
        ),
        (ObservationKind::Waist, Subject::Shape, lies.waist_diameter),
        (
            ObservationKind::Gradient,
            Subject::Face(Face::Left),
            Measure::TractGradient(Face::Left).value(&at).min(100.0),
        ),
    ];
    let laws = &setting.rules().observations;
    let mut seen: Vec<Observation> = Vec::new();
    for (what, of, modelled) in all {
        let law = laws.iter().find(|row| row.what == what).expect("a law").law;
        let minute = 41.0 + seen.len() as f64;
        let it = match law {
            ObservationLaw::Value(law) => Seen::Value(value(what, &law, modelled, stream)),
            ObservationLaw::Answer(law) => {
                let yes = stream.number() < law.yes(modelled);
                told(what, yes)
            }
        };
        seen.push(Observation {
            id: format!("s{}", seen.len() + 1),
            what,
            of,
            seen: it,
            sd: None,
            clock_position: None,
            by: Some(Modality::TransoesophagealEcho),
            min: Some(minute),
            set_aside: None,
        });
        if what == ObservationKind::Slips && it == Seen::Answer(Answer::Yes) {
            break;
        }
    }
    seen
}

/// A yes or no as its kind tells it.
fn told(what: ObservationKind, yes: bool) -> Seen {
    match (what, yes) {
        (ObservationKind::EdgeJet, true) => Seen::Value(0.8),
        (ObservationKind::EdgeJet, false) => Seen::Value(0.0),
        (ObservationKind::Regurgitation, true) => Seen::Grade(Regurgitation::Trivial),
        (ObservationKind::Regurgitation, false) => Seen::Grade(Regurgitation::None),
        (_, true) => Seen::Answer(Answer::Yes),
        (_, false) => Seen::Answer(Answer::No),
    }
}

/// A value as its law lets it be seen, to a tenth.
fn value(what: ObservationKind, law: &ValueLaw, modelled: f64, stream: &mut Stream) -> f64 {
    let is_wrong = stream.number() < law.wrong;
    let (chance, place) = (stream.number(), stream.number());
    let seen = if is_wrong {
        let is_zero = law.range == Range::AtLeastZero && chance < 0.5;
        if is_zero { 0.0 } else { place * law.room }
    } else {
        modelled + law.spread(modelled) * normal::quantile(chance)
    };
    (10.0 * seen).round().clamp(0.0, 10.0 * what.most()) / 10.0
}

/// A day and a month later.
fn follow_up(stream: &mut Stream) -> Vec<FollowUp> {
    let mut number = 0;
    [1.0, 30.0]
        .map(|day| {
            let mut seen = |what, seen| {
                number += 1;
                Observation {
                    id: format!("f{number}"),
                    what,
                    of: Subject::Shape,
                    seen,
                    sd: None,
                    clock_position: None,
                    by: Some(Modality::TransthoracicEcho),
                    min: None,
                    set_aside: None,
                }
            };
            let jet = if stream.number() < 0.1 { 0.5 } else { 0.0 };
            FollowUp {
                day,
                seen: vec![
                    seen(
                        ObservationKind::Rhythm,
                        Seen::Rhythm(sizing::trial::Rhythm::AsBefore),
                    ),
                    seen(ObservationKind::EdgeJet, Seen::Value(jet)),
                ],
            }
        })
        .into()
}
