use super::{Check, Per};
use crate::house_rules::{Band, Circumstances};
use crate::{Case, Neighbour, Route, Setting, Subject, checks};
use geometry::{Face, Occluder};
use measurement::{Quantity, Valve};

/// One check of one subject with the limits that count for it.
#[derive(Clone)]
pub struct Row {
    /// The check.
    pub check: &'static dyn Check,
    /// Its subject.
    pub of: Subject,
    /// What stops.
    pub stop: Band,
    /// What calls for caution.
    pub caution: Band,
    /// What is missing; not empty: it cannot be assessed.
    pub missing: Vec<Quantity>,
    /// What of its needs stands on a reading of less than the preferred kind.
    pub second_choice: Vec<Quantity>,
    /// What moves it, is not missing, and yet was not measured: it holds the
    /// verdict at `borderline`.
    pub unmeasured: Vec<Quantity>,
    /// What it needs and what moves it.
    pub needs: Vec<Quantity>,
}

impl Row {
    /// The check's id for its subject.
    pub fn id(&self) -> &'static str {
        self.check.about().id(self.of)
    }

    /// Whether everything it needs is known.
    pub fn is_assessed(&self) -> bool {
        self.missing.is_empty()
    }
}

/// Every check that has a limit for a shape in a case.
pub fn rows(setting: &Setting, occluder: &Occluder) -> Vec<Row> {
    rows_under(setting, &setting.circumstances(), occluder)
}

/// The same under other circumstances than those read.
pub(crate) fn rows_under(
    setting: &Setting,
    circumstances: &Circumstances,
    occluder: &Occluder,
) -> Vec<Row> {
    let mut rows = Vec::new();
    for &check in checks::ALL {
        for of in subjects(setting.case(), check.about().per) {
            if check.is_asked(setting, occluder, of) {
                rows.extend(row(setting, circumstances, occluder, check, of));
            }
        }
    }
    rows
}

fn row(
    setting: &Setting,
    circumstances: &Circumstances,
    occluder: &Occluder,
    check: &'static dyn Check,
    of: Subject,
) -> Option<Row> {
    let id = check.about().id(of);
    let (mut stop, mut caution) = (Band::NONE, Band::NONE);
    for limit in &setting.rules().limits {
        if limit.speaks_of(id, of, setting.case().site)
            && limit
                .when
                .iter()
                .all(|when| when.holds(circumstances, occluder, of))
        {
            stop = stop.tightest(limit.stop);
            caution = caution.tightest(limit.caution);
        }
    }
    if stop.is_none() && caution.is_none() {
        return None;
    }
    let needs = check.needs(setting, occluder, of);
    let among = |wanted: &dyn Fn(Quantity) -> bool| {
        needs
            .iter()
            .copied()
            .filter(|&quantity| wanted(quantity))
            .collect()
    };
    let missing: Vec<Quantity> = among(&|quantity| !setting.is_known(quantity));
    let second_choice = among(&|quantity| setting.is_second_choice(quantity));
    let needs = with_movers(setting, check, of, needs);
    let holds = |quantity: &&Quantity| setting.holds(**quantity) && !missing.contains(quantity);
    Some(Row {
        check,
        of,
        stop,
        caution,
        unmeasured: needs.iter().filter(holds).copied().collect(),
        missing,
        second_choice,
        needs,
    })
}

/// What a check needs, and what moves its value without being needed: the
/// pressures, where the slack of the waist is shared between the sides.
fn with_movers(
    setting: &Setting,
    check: &dyn Check,
    of: Subject,
    mut needs: Vec<Quantity>,
) -> Vec<Quantity> {
    if needs.contains(&Quantity::WALL_THICKNESS) {
        needs.extend([
            Quantity::LEFT_VENTRICLE_SYSTOLIC,
            Quantity::RIGHT_VENTRICLE_SYSTOLIC,
        ]);
    }
    for mover in check.moved_by(setting, of) {
        if !needs.contains(&mover) {
            needs.push(mover);
        }
    }
    needs
}

/// The subjects a check may be asked of.
fn subjects(case: &Case, per: Per) -> Vec<Subject> {
    match per {
        Per::Shape => vec![Subject::Shape],
        Per::Face => Face::BOTH.map(Subject::Face).to_vec(),
        Per::Valve => Valve::ALL
            .into_iter()
            .filter(|&valve| !case.is_absent(Neighbour::Valve(valve)))
            .map(Subject::Valve)
            .collect(),
        Per::Vessel => match case.route {
            Route::Antegrade => vec![Subject::Vein],
            Route::Retrograde => vec![Subject::Artery],
            Route::Perventricular => Vec::new(),
        },
    }
}
