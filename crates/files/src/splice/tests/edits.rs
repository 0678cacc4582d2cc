//! Edits at random.

use crate::Word;
use geometry::Face;
use measurement::{Finding, Method, Phase, Quantity, Reading, ReadingId, Side};
use proptest::prelude::*;
use sizing::house_rules::{Band, Exception, RuleAddress, Stated};
use sizing::{Answer, Case, Catalogue, Fact, FactValue, Neighbour};

/// One change of a case; places are taken modulo what there is.
#[derive(Clone, Debug)]
pub(super) enum Edit {
    Value(usize, f64),
    Sd(usize, Option<f64>),
    SetAside(usize, Option<String>),
    Image(usize, Option<String>),
    How(usize, usize),
    Add(usize, usize, f64),
    Remove(usize),
    Move(usize, usize),
    Title(String),
    Lesson(Option<String>),
    Place(usize),
    Absent(usize),
    Fact(usize, usize),
    Finding(usize, Option<Answer>),
    Exclusion(String, Option<Answer>),
    Except(usize, f64, Option<String>),
}

fn any_text() -> impl Strategy<Value = String> {
    prop_oneof![
        "[a-z]{1,6}( [a-z]{1,6}){0,3}",
        any::<String>().prop_map(|text| format!("x{text}")),
        Just("// no comment /* nor this */ \" \\ \u{1b}[2J".to_owned()),
    ]
}

fn any_answer() -> impl Strategy<Value = Answer> {
    prop::sample::select(vec![Answer::Yes, Answer::No, Answer::Unknown])
}

pub(super) fn any_edit() -> impl Strategy<Value = Edit> {
    let index = 0..1000_usize;
    let share = 0.0..=1.0_f64;
    prop_oneof![
        (index.clone(), share.clone()).prop_map(|(index, share)| Edit::Value(index, share)),
        (index.clone(), prop::option::of(0.01..=1.0_f64))
            .prop_map(|(index, sd)| Edit::Sd(index, sd)),
        (index.clone(), prop::option::of(any_text()))
            .prop_map(|(index, why)| Edit::SetAside(index, why)),
        (index.clone(), prop::option::of(any_text()))
            .prop_map(|(index, image)| Edit::Image(index, image)),
        (index.clone(), index.clone()).prop_map(|(index, how)| Edit::How(index, how)),
        (index.clone(), index.clone(), share).prop_map(|(at, of, share)| Edit::Add(at, of, share)),
        index.clone().prop_map(Edit::Remove),
        (index.clone(), index.clone()).prop_map(|(from, to)| Edit::Move(from, to)),
        any_text().prop_map(Edit::Title),
        prop::option::of(any_text()).prop_map(Edit::Lesson),
        index.clone().prop_map(Edit::Place),
        index.clone().prop_map(Edit::Absent),
        (index.clone(), index.clone()).prop_map(|(fact, value)| Edit::Fact(fact, value)),
        (index, prop::option::of(any_answer()))
            .prop_map(|(index, answer)| Edit::Finding(index, answer)),
        (any_text(), prop::option::of(any_answer()))
            .prop_map(|(id, answer)| Edit::Exclusion(id, answer)),
        (0..1000_usize, 0.0..=1.0_f64, prop::option::of(any_text()))
            .prop_map(|(index, share, because)| Edit::Except(index, share, because)),
    ]
}

/// The case after some edits.
pub(super) fn edited(case: &Case, edits: &[Edit]) -> Case {
    let mut case = case.clone();
    for edit in edits {
        apply(&mut case, edit);
    }
    case
}

fn within(quantity: Quantity, share: f64) -> f64 {
    let info = quantity.info();
    info.least + share * (info.most - info.least)
}

fn apply(case: &mut Case, edit: &Edit) {
    let count = case.readings.len();
    let at = |index: usize| index % count.max(1);
    if let Edit::Value(index, _)
    | Edit::Sd(index, _)
    | Edit::SetAside(index, _)
    | Edit::Image(index, _)
    | Edit::How(index, _) = edit
    {
        if let Some(reading) = case.readings.get_mut(at(*index)) {
            change(reading, edit);
        }
        return;
    }
    match edit {
        Edit::Add(place, of, share) => {
            let Some(quantity) = Quantity::all().nth(of % Quantity::COUNT) else {
                return;
            };
            let Some(like) = case.readings.first() else {
                return;
            };
            let reading = Reading {
                id: ReadingId(format!("new-{place}-{of}-{count}")),
                quantity,
                value: within(quantity, *share),
                sd: None,
                method: Method::EdgeToEdge,
                set_aside: Some("why".into()),
                ..like.clone()
            };
            if !case.readings.iter().any(|one| one.id == reading.id) {
                case.readings.insert(place % (count + 1), reading);
            }
        }
        Edit::Remove(index) if count > 0 => {
            case.readings.remove(at(*index));
        }
        Edit::Move(from, to) if count > 0 => {
            let reading = case.readings.remove(at(*from));
            case.readings.insert(at(*to), reading);
        }
        Edit::Title(title) => case.title.clone_from(title),
        Edit::Lesson(lesson) => case.lesson.clone_from(lesson),
        Edit::Place(index) => {
            fn nth<T: Word>(index: usize) -> T {
                T::WORDS[index % T::WORDS.len()].1
            }
            (case.site, case.edge, case.route) = (nth(*index), nth(*index), nth(*index));
        }
        Edit::Absent(index) => {
            let neighbour = Neighbour::ALL[index % Neighbour::ALL.len()];
            if !case.absent.remove(&neighbour) {
                case.absent.insert(neighbour);
            }
        }
        Edit::Fact(fact, value) => {
            let values = FactValue::all(Fact::ALL[fact % Fact::ALL.len()]);
            case.facts.set(values[value % values.len()]);
        }
        Edit::Finding(index, answer) => {
            let asked: Vec<Finding> = Finding::asked().collect();
            let finding = asked[index % asked.len()];
            match answer {
                Some(answer) => case.findings.insert(finding, *answer),
                None => case.findings.remove(&finding),
            };
        }
        Edit::Exclusion(id, answer) => {
            match answer {
                Some(answer) => case.exclusions.insert(id.clone(), *answer),
                None => case.exclusions.pop_first().map(|(_, answer)| answer),
            };
        }
        Edit::Except(index, share, because) => except(case, *index, *share, because.as_deref()),
        _ => {}
    }
}

/// An exception from one of a few rules is another one, or is gone.
fn except(case: &mut Case, index: usize, share: f64, because: Option<&str>) {
    let band = |low, high| Band { low, high };
    let half = index.is_multiple_of(2).then_some(share);
    let (rule, instead) = match index % 4 {
        0 => ("tilt_sd", Stated::Value(share)),
        1 => {
            let (value, sd) = (45.0 + 90.0 * share, 1.0 + share);
            ("aortic.annulus_angle", Stated::Assumed { value, sd })
        }
        _ => {
            let (stop, caution) = (band(half, Some(2.0)), band(None, half));
            ("waist_fit", Stated::Limits { stop, caution })
        }
    };
    let rule: RuleAddress = rule.parse().unwrap();
    let place = case.exceptions.iter().position(|one| one.rule == rule);
    let wanted = because.map(|because| Exception {
        rule,
        instead,
        because: because.into(),
    });
    match (place, wanted) {
        (Some(place), Some(wanted)) => case.exceptions[place] = wanted,
        (Some(place), None) => drop(case.exceptions.remove(place)),
        (None, Some(wanted)) => case.exceptions.push(wanted),
        (None, None) => {}
    }
}

fn change(reading: &mut Reading, edit: &Edit) {
    let info = reading.quantity.info();
    match edit {
        Edit::Value(_, share) => reading.value = within(reading.quantity, *share),
        Edit::Sd(_, sd) => reading.sd = sd.map(|share| share * (info.most - info.least)),
        Edit::SetAside(_, why) => reading.set_aside.clone_from(why),
        Edit::Image(_, image) => reading.image.clone_from(image),
        Edit::How(_, how) => {
            reading.side = Side::WORDS[how % Side::WORDS.len()].1;
            reading.phase = Phase::WORDS[how % Phase::WORDS.len()].1;
            reading.method = Method::WORDS[how % Method::WORDS.len()].1;
        }
        _ => {}
    }
}

/// A catalogue after some changes: kind, shape, size, amount.
pub(super) fn edited_catalogue(
    catalogue: &Catalogue,
    changes: &[(u8, usize, usize, u32)],
) -> Catalogue {
    let mut catalogue = catalogue.clone();
    for (number, &(kind, shape, size, amount)) in changes.iter().enumerate() {
        let shape = shape % catalogue.shapes.len();
        let shapes = &mut catalogue.shapes;
        let size = size % shapes[shape].sizes.len();
        let by = f64::from(amount) / 8.0;
        match kind {
            0 => {
                let mut copy = shapes[shape].clone();
                copy.id = format!("copy-{number}");
                shapes.insert(shape, copy);
            }
            1 => {
                let mut copy = shapes[shape].sizes[size].clone();
                copy.label = format!("copy-{number}");
                shapes[shape].sizes.insert(size, copy);
            }
            2 => {
                let changed = &mut shapes[shape].sizes[size];
                changed.occluder.waist.length = by;
                changed.sheath.outer_diameter = Some(10.0 + by);
                for face in Face::BOTH {
                    if let Some(disc) = &mut changed.occluder.discs[face] {
                        disc.radius += by;
                    }
                }
            }
            3 => {
                for size in &mut shapes[shape].sizes {
                    size.occluder.conformability = by / 5.0;
                    size.occluder.braid_angle = geometry::degrees(by * 8.0);
                }
                shapes[shape].about = format!("changed by {by}");
            }
            4 => {
                let shape = &shapes[shape];
                let name = format!("{}/{}", shape.id, shape.sizes[size].label);
                if !catalogue.put_aside.remove(&name) {
                    catalogue.put_aside.insert(name);
                }
            }
            _ if shapes[shape].sizes.len() > 1 => {
                shapes[shape].sizes.remove(size);
            }
            _ => {}
        }
    }
    catalogue
}
