//! What is worked out after an edit, as far as that reaches, is byte for byte what is
//! worked out anew.
//!
//! `RIMWISE_EDITS` says how many edits are made in all scenarios together;
//! `RIMWISE_EDITS=2000` takes some minutes.

#![expect(clippy::expect_used, reason = "what fails here fails the test")]

use measurement::{Answer, Prolapse};
use outside::sample::{case_names, scenario, shipped_catalogue, shipped_limits, shipped_rules};
use outside::stream::Stream;
use sizing::engine::{Answers, Engine, Fast};
use sizing::{Assessment, Case, Catalogue, Draws, HouseRules, Ranking, Setting, Work, rank};
use std::sync::Arc;
use std::sync::atomic::AtomicBool;

/// How many edits are made where `RIMWISE_EDITS` does not say.
const FEW: usize = 150;
const DRAWS: usize = 128;
static CANCEL: AtomicBool = AtomicBool::new(false);

#[test]
fn what_an_edit_reaches_is_what_is_worked_out_anew() {
    let edits = std::env::var("RIMWISE_EDITS");
    let edits = edits.map_or(FEW, |said| said.parse().expect("a number"));
    let names: Vec<&str> = case_names().collect();
    let each = edits.div_ceil(names.len());
    let (mut standing, mut rows) = (0, 0);
    for (seed, name) in (0..).zip(names) {
        let mut desk = Desk::open(scenario(name));
        let mut stream = Stream(seed);
        for edit in 0..each {
            let what = edited(&mut desk.case, &mut stream);
            let [stand, all] = desk.follow(&format!("{name}, edit {edit}: {what}"), edit % 5 == 4);
            standing += stand;
            rows += all;
        }
    }
    // Otherwise it was worked out anew each time, and nothing is shown.
    assert!(5 * standing > rows, "{standing} of {rows} rows stand");
}

/// A case that is edited, with what is known of it from before the last edit.
struct Desk {
    case: Case,
    house: Arc<HouseRules>,
    catalogues: Vec<Catalogue>,
    last: Ranking,
    answers: Option<Answers>,
    draws: Draws,
}

impl Desk {
    fn open(case: Case) -> Self {
        let house = Arc::new(shipped_rules());
        let setting = set(&case, &house);
        let catalogues = vec![few_sizes()];
        let draws = Draws::new(&setting, DRAWS, 1).expect("draws");
        let last = anew(&setting, &catalogues, &draws);
        Self {
            case,
            house,
            catalogues,
            last,
            answers: None,
            draws,
        }
    }

    /// Works the list out after an edit, and anew, and holds one against the other; gives
    /// how many rows stand, of how many. Where it is cancelled between the values as
    /// measured and the chances the next edit begins from there.
    fn follow(&mut self, says: &str, is_cancelled: bool) -> [usize; 2] {
        let work = work(&CANCEL);
        let setting = set(&self.case, &self.house);
        let before = (&self.last, self.answers.as_ref());
        let after = Assessment::after(before, &setting, &self.catalogues, &work);
        let mut after = after.expect("never cancelled");
        let standing = after.standing();
        let measured = after.rank(None, &work).expect("never cancelled");
        let alone = rank(&setting, &self.catalogues, None, &work).expect("never cancelled");
        assert_alike(&measured, &alone, says);
        if is_cancelled {
            self.last = measured;
            self.answers = after.answers().cloned();
            return standing;
        }
        let draws = Draws::after(Some(&self.draws), &setting, DRAWS, 1).expect("draws");
        let counter = Fast.prepare(draws.clone());
        let ranked = after.rank_again(&*counter, &work).expect("never cancelled");
        let drawn_anew = Draws::new(&setting, DRAWS, 1).expect("draws");
        assert_alike(
            &ranked,
            &anew(&setting, &self.catalogues, &drawn_anew),
            says,
        );
        self.last = ranked;
        self.answers = after.answers().cloned();
        self.draws = draws;
        standing
    }
}

fn set(case: &Case, house: &Arc<HouseRules>) -> Arc<Setting> {
    let (case, house) = (Arc::new(case.clone()), Arc::clone(house));
    Arc::new(files::setting(case, house, Some(&shipped_limits())))
}

const fn work(cancel: &AtomicBool) -> Work<'_> {
    Work { threads: 2, cancel }
}

fn anew(setting: &Arc<Setting>, catalogues: &[Catalogue], draws: &Draws) -> Ranking {
    let counter = Fast.prepare(draws.clone());
    let ranking = rank(setting, catalogues, Some(&*counter), &work(&CANCEL));
    ranking.expect("never cancelled")
}

/// Some sizes of every shape.
fn few_sizes() -> Catalogue {
    let mut catalogue = shipped_catalogue();
    for shape in &mut catalogue.shapes {
        shape.sizes = shape.sizes.iter().step_by(5).cloned().collect();
    }
    catalogue
}

/// Asserts that two lists are alike in every byte of what they say.
fn assert_alike(one: &Ranking, other: &Ranking, says: &str) {
    for (one, other) in one.candidates.iter().zip(&other.candidates) {
        assert_eq!(format!("{one:?}"), format!("{other:?}"), "{says}");
    }
    let rest = |list: &Ranking| {
        let Ranking {
            setting: _,
            candidates,
            groups,
            missed,
            aside_unknown,
            excluded,
            unanswered,
            against,
            contradictions,
            notes,
        } = list;
        let said = (excluded, unanswered, against, contradictions, notes);
        format!(
            "{} {groups:?} {missed:?} {aside_unknown:?} {said:?}",
            candidates.len()
        )
    };
    assert_eq!(rest(one), rest(other), "{says}");
}

/// Changes a case somewhere and says what was changed.
fn edited(case: &mut Case, stream: &mut Stream) -> String {
    let kind = stream.place(20);
    if kind >= 17 || case.readings.is_empty() {
        return fact_edited(case, stream);
    }
    let place = stream.place(case.readings.len());
    let reading = &mut case.readings[place];
    let said = format!("reading {}", reading.quantity.address());
    match kind {
        0 => {
            case.readings.remove(place);
            format!("{said} removed")
        }
        1 => {
            let mut other = reading.clone();
            other.id.0.push_str("-again");
            other.value *= 1.1;
            case.readings.push(other);
            format!("{said} again")
        }
        2 | 3 => {
            reading.set_aside = match reading.set_aside {
                Some(_) => None,
                None => Some("to check with".into()),
            };
            format!("{said} set aside or not")
        }
        4 | 5 => {
            reading.sd = reading.sd.map(|sd| 1.5 * sd).or(Some(0.4));
            format!("{said} less sure")
        }
        _ => {
            let info = reading.quantity.info();
            let by = reading.sd.unwrap_or(0.1 * reading.value.abs()) * stream.between(-3.0, 3.0);
            reading.value = (reading.value + by).clamp(info.least, info.most);
            format!("{said} is {}", reading.value)
        }
    }
}

fn fact_edited(case: &mut Case, stream: &mut Stream) -> String {
    match stream.place(3) {
        0 => {
            case.facts.prolapse = match case.facts.prolapse {
                Prolapse::None => Prolapse::Unknown,
                _ => Prolapse::None,
            };
            "prolapse".into()
        }
        1 => {
            let answers = case.exclusions.len().max(1);
            if let Some(answer) = case.exclusions.values_mut().nth(stream.place(answers)) {
                *answer = match answer {
                    Answer::No => Answer::Unknown,
                    _ => Answer::No,
                };
            }
            "an exclusion".into()
        }
        _ => {
            case.title.push('.');
            "the title".into()
        }
    }
}
