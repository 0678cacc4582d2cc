use crate::{Model, Row};
use measurement::{Feature, Finding, Quantity, Reading, Structure, Valve};
use sizing::resolve::{Basis, followed, neighbour_of};
use sizing::{Answer, Fact, Neighbour, rows};
use std::collections::BTreeMap;

/// What a guide asks for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Ask {
    /// The value of a quantity.
    Quantity(Quantity),
    /// A neighbour said not to be there: whether it is so.
    Absent(Neighbour),
    /// A fact.
    Fact(Fact),
    /// An exclusion of the house rules, by its id.
    Exclusion(String),
    /// A finding.
    Finding(Finding),
    /// Nothing more: all that the list needs was asked.
    List,
}

impl Ask {
    /// Whether a line of the list of readings is about the same.
    pub(super) fn is_about(&self, row: &Row) -> bool {
        match (self, row) {
            (Self::Quantity(one), row) => row.quantity() == Some(*one),
            (Self::Absent(one), Row::Absent(other)) => one == other,
            (Self::Fact(one), Row::Fact(other)) => one == other,
            (Self::Exclusion(one), Row::Exclusion(other)) => one == other,
            (Self::Finding(one), Row::Finding(other)) => one == other,
            _ => false,
        }
    }

    /// The neighbour it is about.
    pub(super) fn neighbour(&self) -> Option<Neighbour> {
        match self {
            Self::Quantity(quantity) => neighbour_of(quantity.info().structure),
            Self::Absent(neighbour) => Some(*neighbour),
            _ => None,
        }
    }
}

/// A part of what is asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Chapter {
    /// The hole and its wall.
    Defect,
    /// Valves and outflow tracts.
    Beside,
    /// The child, the room in its ventricles, the vessel of the way.
    Child,
    /// Facts that limits or verdicts depend on.
    Facts,
    /// What stops every shape.
    Exclusions,
    /// The list.
    List,
    /// What is assumed where it is left out.
    Finer,
    /// What bears on whether to close.
    WorkUp,
}

impl Chapter {
    /// The heading of the chapter.
    pub const fn title(self) -> &'static str {
        match self {
            Self::Defect => "The defect",
            Self::Beside => "Valves and outflow tracts",
            Self::Child => "The child and the access",
            Self::Facts => "Facts",
            Self::Exclusions => "Exclusions",
            Self::List => "The list",
            Self::Finer => "Optional: finer",
            Self::WorkUp => "Optional: the work-up",
        }
    }
}

/// A question of a guide.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct GuideItem {
    /// Its chapter.
    pub(crate) chapter: Chapter,
    /// What it asks for.
    pub(crate) ask: Ask,
    /// The checks that cannot be made without it.
    pub(crate) needed_by: Vec<&'static str>,
}

/// What the checks of the sizes on the shelf look at.
#[derive(Default)]
struct ShelfNeeds {
    /// The checks that need a quantity.
    needed: BTreeMap<Quantity, Vec<&'static str>>,
    /// What moves a check that can do without.
    moving: Vec<Quantity>,
}

impl ShelfNeeds {
    fn new(model: &Model) -> Self {
        let mut needs = Self::default();
        let setting = model.setting();
        let shapes = model.document().shelf().shapes();
        for size in shapes.flat_map(|(_, shape)| &shape.sizes) {
            for row in rows(setting, &size.occluder) {
                let title = row.check.about().title;
                for quantity in row.required(setting) {
                    let titles = needs.needed.entry(quantity).or_default();
                    if !titles.contains(&title) {
                        titles.push(title);
                    }
                }
                needs.moving.extend(row.movers(setting));
            }
        }
        needs
    }
}

/// The questions of the open case, chapter by chapter.
pub(super) fn asked(model: &Model) -> Vec<GuideItem> {
    let needs = ShelfNeeds::new(model);
    let case = model.document().case();
    let rules = model.document().rules();
    let mut asked = quantities(model, &needs);
    let mut ask = |chapter, ask| {
        let needed_by = match &ask {
            Ask::Quantity(quantity) => needs.needed.get(quantity).cloned().unwrap_or_default(),
            _ => Vec::new(),
        };
        asked.push(GuideItem {
            chapter,
            ask,
            needed_by,
        });
    };
    for fact in Fact::ALL.into_iter().filter(|fact| fact.is_asked(case)) {
        let chapter = if fact.is_needed(case) {
            Chapter::Facts
        } else {
            Chapter::WorkUp
        };
        ask(chapter, Ask::Fact(fact));
        // Over a cusp that prolapses, or may, an assumed sag will not do.
        if let Some(sag) = aortic_sag()
            && fact == Fact::Prolapse
            && case.facts.prolapse.may_be()
        {
            ask(Chapter::Facts, Ask::Quantity(sag));
        }
    }
    for exclusion in rules.exclusions_for(case.site) {
        ask(Chapter::Exclusions, Ask::Exclusion(exclusion.id.clone()));
    }
    ask(Chapter::List, Ask::List);
    for finding in Finding::asked() {
        ask(Chapter::WorkUp, Ask::Finding(finding));
    }
    for quantity in Quantity::all().filter(|&one| is_of_workup(one, &needs)) {
        ask(Chapter::WorkUp, Ask::Quantity(quantity));
    }
    // What checks look at comes before the work-up.
    asked.sort_by_key(|one| one.chapter as usize);
    asked
}

/// Quantities that the list needs or that move it.
fn quantities(model: &Model, needs: &ShelfNeeds) -> Vec<GuideItem> {
    let case = model.document().case();
    let mut asked: Vec<GuideItem> = Vec::new();
    for quantity in Quantity::all() {
        let info = quantity.info();
        let is_asked = info.sites.is_empty() || info.sites.contains(&case.site);
        let absent = neighbour_of(info.structure).filter(|&one| case.is_absent(one));
        let needed_by = needs.needed.get(&quantity).cloned().unwrap_or_default();
        let ask = match absent {
            Some(neighbour) => Ask::Absent(neighbour),
            None if is_asked => Ask::Quantity(quantity),
            None => continue,
        };
        if asked.iter().any(|one| one.ask == ask) {
            continue;
        }
        let is_circumstance = info.structure == Structure::Patient
            && matches!(info.feature, Feature::Weight | Feature::Age);
        let must = !needed_by.is_empty() && !has_substitute(model, quantity) || is_circumstance;
        let may = !needed_by.is_empty() || needs.moving.contains(&quantity) || seats(quantity);
        let is_of_fact = Some(quantity) == aortic_sag() && case.facts.prolapse.may_be();
        let chapter = match ask {
            Ask::Absent(_) => Chapter::Beside,
            _ if is_of_fact => continue,
            _ if must => chapter(info.structure),
            _ if may => Chapter::Finer,
            _ => continue,
        };
        asked.push(GuideItem {
            chapter,
            ask,
            needed_by,
        });
    }
    asked
}

/// The chapter of what the list needs of a structure.
const fn chapter(structure: Structure) -> Chapter {
    match structure {
        Structure::Defect | Structure::LeftOpening | Structure::RightOpening | Structure::Wall => {
            Chapter::Defect
        }
        Structure::Valve(_) | Structure::LeftOutflow | Structure::RightOutflow => Chapter::Beside,
        _ => Chapter::Child,
    }
}

/// Whether it is the rotation of the defect: unread, any serves.
fn is_of_rotation(quantity: Quantity) -> bool {
    let info = quantity.info();
    (info.structure, info.feature) == (Structure::Defect, Feature::Rotation)
}

/// Whether something serves where a quantity was not read.
fn has_substitute(model: &Model, quantity: Quantity) -> bool {
    let document = model.document();
    let site = document.case().site;
    // What is assumed of these holds every verdict at borderline: they are asked.
    let holds = matches!(quantity.info().feature, Feature::Thickness | Feature::Rim);
    (document.rules().default_at(quantity, site).is_some() && !holds)
        || is_of_rotation(quantity)
        || followed(quantity).is_some()
        || matches!(model.setting().basis(quantity), Basis::Follows(_))
        || matches!(
            quantity.info().feature,
            Feature::OffsetToward12 | Feature::OffsetToward3
        )
}

/// Whether it says on which side the pressure seats a disc.
fn seats(quantity: Quantity) -> bool {
    let info = quantity.info();
    info.feature == Feature::SystolicPressure
        && matches!(
            info.structure,
            Structure::LeftVentricle | Structure::RightVentricle
        )
}

/// Whether only the work-up asks for it.
fn is_of_workup(quantity: Quantity, needs: &ShelfNeeds) -> bool {
    let info = quantity.info();
    let is_of_both = matches!(info.feature, Feature::Height | Feature::QpQs);
    quantity.is_for_workup_alone() || is_of_both && !needs.moving.contains(&quantity)
}

fn aortic_sag() -> Option<Quantity> {
    Quantity::find(Structure::Valve(Valve::Aortic), Feature::CuspDepth)
}

/// The reading that serves for a quantity, the first of several.
pub(super) fn given(model: &Model, quantity: Quantity) -> Option<&Reading> {
    match model.setting().basis(quantity) {
        Basis::Read(selection) => model.document().reading(selection.used.first()?),
        _ => None,
    }
}

/// The answer to a question of yes or no; `None` where it asks for something else.
pub(super) fn answer(model: &Model, ask: &Ask) -> Option<Answer> {
    let case = model.document().case();
    match ask {
        Ask::Exclusion(id) => Some(model.exclusion(id)?.answer),
        Ask::Finding(finding) => Some(case.findings.get(finding).copied().unwrap_or_default()),
        Ask::Quantity(_) | Ask::Absent(_) | Ask::Fact(_) | Ask::List => None,
    }
}

/// Whether the list still waits for an answer.
pub(super) fn is_open(model: &Model, asked: &GuideItem) -> bool {
    match (&asked.ask, asked.chapter) {
        (_, Chapter::List | Chapter::Finer | Chapter::WorkUp) => false,
        (Ask::Quantity(quantity), _) => given(model, *quantity).is_none(),
        (Ask::Fact(fact), _) => model.document().case().facts.get(*fact).is_unknown(),
        (ask, _) => answer(model, ask) == Some(Answer::Unknown),
    }
}
