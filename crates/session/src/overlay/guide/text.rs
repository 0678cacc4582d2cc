//! A guide in words.

use super::super::capital;
use super::items::{answer, given, is_open};
use super::{Ask, Chapter, Guide, GuideItem, taken};
use crate::amount::{self, amount};
use crate::fact::{choices, how, question, unsure};
use crate::neighbour_name::neighbour;
use crate::reading_words::taking;
use crate::{Home, Model};
use geometry::Face;
use measurement::{Quantity, Structure, Unit, Valve};
use sizing::resolve::{Basis, neighbour_of};
use sizing::{Answer, Fact, Neighbour};

/// The question that is asked now, in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct GuideText {
    /// Its chapter.
    pub chapter: Chapter,
    /// The question.
    pub title: String,
    /// The unit of what is typed; `None` where nothing is.
    pub unit: Option<&'static str>,
    /// What is to be known of it, each line under a word or two.
    pub says: Vec<(&'static str, String)>,
    /// What its answer does to the list, where that is grave.
    pub grave: Option<&'static str>,
}

/// A question among all, in a line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct GuideLine {
    /// Its chapter.
    pub chapter: Chapter,
    /// Whether it is answered, open or left.
    pub mark: Mark,
    /// What it asks for.
    pub name: String,
    /// Its name in few letters.
    pub short: String,
    /// Its answer, if there is one.
    pub answer: String,
}

/// How it stands with a question.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mark {
    /// Answered.
    Given,
    /// The list waits for it.
    Open,
    /// Something is assumed.
    Assumed,
    /// Said not to be there, or not to be so.
    Not,
    /// It stops every shape.
    Stops,
    /// Nobody answered it and the list does not wait.
    Left,
}

impl Guide {
    /// Every question, in its order.
    pub fn listed(&self, model: &Model) -> Vec<GuideLine> {
        self.asked.iter().map(|one| listed(model, one)).collect()
    }

    /// Where the one that is asked now stands among them.
    pub const fn place(&self) -> usize {
        self.place
    }

    /// How many of the questions that the list needs are open, and how many there
    /// are.
    pub fn open_of(&self, model: &Model) -> (usize, usize) {
        let needed = &self.asked[..self.list().min(self.asked.len())];
        let open = needed.iter().filter(|one| is_open(model, one)).count();
        (open, needed.len())
    }

    /// The question that is asked now.
    pub fn told(&self, model: &Model) -> GuideText {
        let chapter = self
            .asked
            .get(self.place)
            .map_or(Chapter::List, |it| it.chapter);
        let mut told = GuideText {
            chapter,
            title: String::new(),
            unit: None,
            says: Vec::new(),
            grave: None,
        };
        match self.asked.get(self.place) {
            Some(GuideItem {
                ask: Ask::Quantity(quantity),
                needed_by,
                ..
            }) => self.quantity_told(&mut told, *quantity, needed_by, model),
            Some(GuideItem {
                ask: Ask::Absent(absent),
                ..
            }) => {
                told.title = format!("The {} is out of reach of any disc", neighbour(*absent));
                told.says = vec![
                    ("so", "it is neither asked for nor counted".to_owned()),
                    ("n", "takes it back: it is in reach".to_owned()),
                ];
            }
            Some(GuideItem { ask: Ask::List, .. }) | None => self.list_told(&mut told, model),
            Some(GuideItem {
                ask: Ask::Fact(fact),
                ..
            }) => fact_told(&mut told, *fact, model),
            Some(asked) => question_told(&mut told, asked, model),
        }
        told
    }

    fn quantity_told(
        &self,
        told: &mut GuideText,
        quantity: Quantity,
        needed_by: &[&str],
        model: &Model,
    ) {
        let info = quantity.info();
        told.title = capital(quantity.label());
        told.unit = Some(info.unit.symbol());
        let reading = taken(model, quantity, &self.editor.text());
        let sd = reading.sd.map_or_else(
            || {
                let sd = sizing::resolve::assumed_sd(&reading, model.document().rules());
                format!("{} by your centre's rule", amount(quantity, hundredths(sd)))
            },
            |sd| amount(quantity, sd),
        );
        if let Some(reading) = given(model, quantity) {
            let so_far = amount(quantity, reading.value);
            let keeps = format!("{so_far}; Enter keeps it, a number replaces it");
            told.says.push(("so far", keeps));
        }
        told.says.extend([
            ("accepted", accepted(quantity)),
            ("why", info.why.to_owned()),
            ("how", info.how.to_owned()),
            (
                "taken as",
                format!("{}, ± {sd}; e changes this", taking(&reading)),
            ),
        ]);
        if given(model, quantity).is_none() {
            told.says
                .push(("left out", left_out(quantity, needed_by, model)));
        }
        let text = self.editor.text();
        if let Some(value) = amount::typed(quantity, &text)
            && (text.contains(char::is_alphabetic) || quantity.unit() == Unit::Years)
        {
            told.says
                .insert(0, ("typed", amount::said(quantity, value)));
        }
        if let Some(one) = neighbour_of(info.structure) {
            told.says.push(("n", not_there(model, one)));
        }
    }

    fn list_told(&self, told: &mut GuideText, model: &Model) {
        let needed = &self.asked[..self.list().min(self.asked.len())];
        let open: Vec<String> = needed
            .iter()
            .filter(|one| is_open(model, one))
            .map(|one| listed(model, one).name)
            .collect();
        told.title = if open.is_empty() {
            "Everything the list needs was answered".to_owned()
        } else {
            "Everything the list needs was asked".to_owned()
        };
        if !open.is_empty() {
            // A question of fact that is open is said over the list, and no more.
            let holds = needed
                .iter()
                .any(|one| !one.needed_by.is_empty() && is_open(model, one));
            let so = if holds {
                "every size stays borderline at best until this is measured"
            } else {
                "shown above the list until it is answered"
            };
            told.says.push(("open", format!("{}: {so}", few(&open))));
        }
        let assumed: Vec<String> = assumed(model)
            .map(|quantity| quantity.label().to_owned())
            .collect();
        if !assumed.is_empty() {
            told.says
                .push(("assumed", format!("{}; down gives them", few(&assumed))));
        }
        let now = model.headline().filter(|_| !model.is_working());
        told.says
            .push(("list", now.unwrap_or_else(|| "is being ranked".to_owned())));
        if model.document().home() == &Home::Nowhere {
            let save = model.key_of("save");
            told.says.push((
                "file",
                format!("not in a file yet; {save} saves it once the guide is closed"),
            ));
        }
        told.says.push((
            "next",
            "Enter closes the guide and shows the list; down leads to optional questions"
                .to_owned(),
        ));
    }
}

/// What is said when a guide is closed: what is open, what is assumed, and that
/// the list is being ranked.
pub(crate) fn closing(guide: &Guide, model: &Model) -> String {
    let (open, _) = guide.open_of(model);
    let assumed = assumed(model).count();
    let list = if model.is_working() {
        "the list is being ranked"
    } else {
        "the list is ranked"
    };
    let again = model.key_of("guide");
    format!("{open} open, {assumed} assumed; {list}; {again} opens the guide again")
}

/// What stands on an assumption of the house.
fn assumed(model: &Model) -> impl Iterator<Item = Quantity> {
    let resolved = model.setting().resolved().iter();
    resolved
        .filter(|one| matches!(one.basis, Basis::Assumed { .. }))
        .map(|one| one.quantity)
}

/// The first of several names and how many more there are.
fn few(names: &[String]) -> String {
    const FEW: usize = 4;
    let more = names.len().saturating_sub(FEW);
    let first = names[..names.len() - more].join("; ");
    if more == 0 {
        first
    } else {
        format!("{first}; and {more} more")
    }
}

/// What comes of leaving a quantity out.
fn left_out(quantity: Quantity, needed_by: &[&str], model: &Model) -> String {
    let info = quantity.info();
    if (info.structure, info.feature) == (Structure::Defect, measurement::Feature::Rotation) {
        return "every rotation is taken as equally likely; the worst counts for each check"
            .to_owned();
    }
    let of_default = || {
        let rules = model.document().rules();
        let row = rules.default_at(quantity, model.document().case().site)?;
        let value = amount::number(quantity, row.value);
        let unit = amount::unit(quantity);
        Some(format!("{value} ± {}{unit} is assumed", row.sd))
    };
    if let Some(says) = of_default() {
        return says;
    }
    if let Some(other) = sizing::resolve::followed(quantity) {
        return format!("taken as the {other}");
    }
    match (info.structure, needed_by) {
        (Structure::Patient, _) if !quantity.is_for_workup_alone() => {
            "the limits for small children apply".to_owned()
        }
        (Structure::LeftOpening | Structure::RightOpening, _) => "taken as 0".to_owned(),
        (Structure::LeftVentricle | Structure::RightVentricle, [])
            if !quantity.is_for_workup_alone() =>
        {
            "the left pressure is taken as the higher".to_owned()
        }
        (_, []) => "no verdict depends on it; the work-up lists it as open".to_owned(),
        (_, checks) => {
            let checks: Vec<String> = checks.iter().map(ToString::to_string).collect();
            format!(
                "every size stays borderline at best, because this is not assessed: {}",
                few(&checks)
            )
        }
    }
}

fn fact_told(told: &mut GuideText, fact: Fact, model: &Model) {
    let case = model.document().case();
    let keys: Vec<String> = choices(fact)
        .iter()
        .map(|one| format!("{} {}", one.key, one.says))
        .collect();
    let unsure = if fact.is_needed(case) {
        unsure(fact)
    } else {
        "no verdict depends on it; the work-up lists it as open"
    };
    question(fact).clone_into(&mut told.title);
    told.says = vec![
        ("so far", case.facts.get(fact).says()),
        ("seen", how(fact).to_owned()),
        ("answers", keys.join(", ")),
        ("if unsure", unsure.to_owned()),
    ];
}

fn question_told(told: &mut GuideText, asked: &GuideItem, model: &Model) {
    let name = listed(model, asked).name;
    let answer = answer(model, &asked.ask).unwrap_or_default();
    told.title = match asked.ask {
        Ask::Finding(_) => format!("{}?", capital(&name)),
        _ => format!("Is it so that {name}?"),
    };
    told.says.push(("so far", answer.to_string()));
    if let Ask::Exclusion(id) = &asked.ask
        && let Some(settled) = model.exclusion(id).filter(|one| !one.because.is_empty())
    {
        let because = settled.because.join("; ");
        told.says.push(("because", because));
        if settled.is_denied() {
            let typed = settled.typed;
            told.says
                .push(("against it", format!("{typed} was answered")));
        }
    }
    let unknown = match asked.ask {
        Ask::Exclusion(_) => "stays open; every size stays borderline at best",
        _ => "no verdict depends on it; the work-up lists it as open",
    };
    if matches!(asked.ask, Ask::Exclusion(_)) {
        told.says
            .push(("yes", "excludes every device, whatever its size".to_owned()));
    }
    told.says.push(("not known", unknown.to_owned()));
    if answer == Answer::Yes && matches!(asked.ask, Ask::Exclusion(_)) {
        told.grave = Some("This excludes every device; none can fit. Enter goes on.");
    }
}

fn listed(model: &Model, asked: &GuideItem) -> GuideLine {
    let (name, short) = match &asked.ask {
        Ask::Quantity(quantity) => (
            quantity.label().to_owned(),
            quantity.address().replace(['.', '_'], " "),
        ),
        Ask::Absent(absent) => (neighbour(*absent).to_owned(), neighbour(*absent).to_owned()),
        Ask::Fact(fact) => (fact.label().to_owned(), fact.label().to_owned()),
        Ask::Finding(finding) => (finding.label().to_owned(), finding.label().to_owned()),
        Ask::Exclusion(id) => {
            let rules = model.document().rules();
            let row = rules.exclusions.iter().find(|one| one.id == *id);
            let fact = row.map_or(id, |row| &row.fact);
            (fact.clone(), fact.clone())
        }
        Ask::List => (
            "what is open, what is assumed".to_owned(),
            "open, assumed".to_owned(),
        ),
    };
    let (mark, answer) = stands(model, asked);
    GuideLine {
        chapter: asked.chapter,
        mark,
        name,
        short,
        answer,
    }
}

/// How it stands with a question, and its answer in a word.
fn stands(model: &Model, asked: &GuideItem) -> (Mark, String) {
    let open = if is_open(model, asked) {
        Mark::Open
    } else {
        Mark::Left
    };
    match &asked.ask {
        Ask::Quantity(quantity) => match given(model, *quantity) {
            Some(reading) => (Mark::Given, amount::said(*quantity, reading.value)),
            None if asked.chapter == Chapter::Finer => (Mark::Assumed, String::new()),
            None => (open, String::new()),
        },
        Ask::Absent(_) => (Mark::Not, "out of reach".to_owned()),
        Ask::List => (Mark::Left, String::new()),
        Ask::Fact(fact) => {
            let value = model.document().case().facts.get(*fact);
            match (value.is_unknown(), value.is_clear()) {
                (true, _) => (open, String::new()),
                (false, true) => (Mark::Not, value.says()),
                (false, false) => (Mark::Given, value.says()),
            }
        }
        ask => match (answer(model, ask).unwrap_or_default(), ask) {
            (Answer::Unknown, _) => (open, String::new()),
            (Answer::Yes, Ask::Exclusion(_)) => (Mark::Stops, "yes".to_owned()),
            (Answer::Yes, _) => (Mark::Given, "yes".to_owned()),
            (Answer::No, _) => (Mark::Not, "no".to_owned()),
        },
    }
}

/// What is meant by a neighbour that is not there: it is out of the reach of every
/// disc.
fn not_there(model: &Model, one: Neighbour) -> String {
    let face = match one {
        Neighbour::Valve(Valve::Aortic | Valve::Mitral) | Neighbour::LeftOutflow => Face::Left,
        _ => Face::Right,
    };
    let shapes = model.document().shelf().shapes();
    let reach = shapes
        .flat_map(|(_, shape)| &shape.sizes)
        .filter_map(|size| size.occluder.longest_overhang(face))
        .fold(0.0, f64::max);
    format!(
        "no {} where a disc could reach it (at most {reach:.0} mm past the waist): nothing of it \
         is asked or counted",
        neighbour(one)
    )
}

/// What is accepted of a quantity: `0.5 to 40 mm`.
fn accepted(quantity: Quantity) -> String {
    let info = quantity.info();
    let (least, most) = (info.least, info.most);
    let unit = amount::unit(quantity);
    format!("{least} to {most}{unit}{}", amount::also(quantity))
}

/// A standard deviation of a rule, as far as anyone reads it.
fn hundredths(sd: f64) -> f64 {
    (100.0 * sd).round() / 100.0
}
