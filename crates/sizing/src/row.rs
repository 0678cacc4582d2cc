use crate::check::{Check, Per};
use crate::house_rules::{Band, Circumstances};
use crate::measure::Measure;
use crate::{Case, Neighbour, Route, Setting, State, Subject, checks};
use geometry::{Face, Occluder};
use measurement::{Quantity, Valve};

/// One check of one subject with the limits that count for it.
#[derive(Clone)]
pub struct Row {
    /// The check.
    pub check: &'static dyn Check,
    /// Its subject.
    pub of: Subject,
    /// What it measures there.
    pub measure: Measure,
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
        self.check.about().name.id(self.of)
    }

    /// Whether everything it needs is known.
    pub(crate) fn is_assessed(&self) -> bool {
        self.missing.is_empty()
    }

    /// Its state at a value.
    pub fn state(&self, value: f64) -> State {
        if self.stop.is_broken(value) {
            State::Stop
        } else if self.caution.is_broken(value) {
            State::Caution
        } else {
            State::Ok
        }
    }

    /// Whether no value of it is worse than the least: nothing limits it from above.
    pub(crate) const fn is_worst_at_its_least(&self) -> bool {
        self.stop.high.is_none() && self.caution.high.is_none()
    }

    /// The quantities without which it cannot be assessed.
    pub fn required(&self, setting: &Setting) -> Vec<Quantity> {
        required(setting, self.check, self.of, self.measure)
    }

    /// The quantities that move its measure, though that has a value without them.
    pub fn movers(&self, setting: &Setting) -> Vec<Quantity> {
        self.measure.moved_by(setting)
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
        for (of, measure) in asked_of(setting.case(), check.about().per) {
            if check.is_asked(setting, occluder, of) {
                let bands = bands(
                    setting,
                    circumstances,
                    occluder,
                    check.about().name.id(of),
                    of,
                );
                rows.extend(bands.map(|bands| row(setting, check, of, measure, bands)));
            }
        }
    }
    rows
}

/// The tightest limits that count for a check of a subject; `None` without any.
fn bands(
    setting: &Setting,
    circumstances: &Circumstances,
    occluder: &Occluder,
    check: &str,
    of: Subject,
) -> Option<[Band; 2]> {
    let (mut stop, mut caution) = (Band::NONE, Band::NONE);
    for limit in &setting.rules().limits {
        let mut when = limit.when.iter();
        if limit.speaks_of(check, of, setting.case().site)
            && when.all(|when| when.holds(circumstances, occluder, of))
        {
            stop = stop.tightest(limit.stop);
            caution = caution.tightest(limit.caution);
        }
    }
    (!stop.is_none() || !caution.is_none()).then_some([stop, caution])
}

fn row(
    setting: &Setting,
    check: &'static dyn Check,
    of: Subject,
    measure: Measure,
    [stop, caution]: [Band; 2],
) -> Row {
    let mut needs = required(setting, check, of, measure);
    let among = |wanted: &dyn Fn(Quantity) -> bool| {
        let all = needs.iter().copied();
        all.filter(|&quantity| wanted(quantity)).collect()
    };
    let missing: Vec<Quantity> = among(&|quantity| !setting.is_known(quantity));
    let second_choice = among(&|quantity| setting.is_second_choice(quantity));
    add_movers(setting, measure, &mut needs);
    let holds = |quantity: &&Quantity| setting.holds(**quantity) && !missing.contains(quantity);
    Row {
        check,
        of,
        measure,
        stop,
        caution,
        unmeasured: needs.iter().filter(holds).copied().collect(),
        missing,
        second_choice,
        needs,
    }
}

fn required(setting: &Setting, check: &dyn Check, of: Subject, measure: Measure) -> Vec<Quantity> {
    let mut needs = measure.needs(setting);
    add_new(&mut needs, check.needs(setting, of));
    needs
}

/// Adds what moves a value without being needed: the pressures, where the slack of the
/// waist is shared between the sides, and what moves the measure itself.
fn add_movers(setting: &Setting, measure: Measure, needs: &mut Vec<Quantity>) {
    if needs.contains(&Quantity::WALL_THICKNESS) {
        needs.extend([
            Quantity::LEFT_VENTRICLE_SYSTOLIC,
            Quantity::RIGHT_VENTRICLE_SYSTOLIC,
        ]);
    }
    add_new(needs, measure.moved_by(setting));
}

/// Adds to a list what is not in it.
fn add_new(list: &mut Vec<Quantity>, others: Vec<Quantity>) {
    for other in others {
        if !list.contains(&other) {
            list.push(other);
        }
    }
}

/// The subjects that a check may be asked of, each with what is measured there.
fn asked_of(case: &Case, per: Per) -> Vec<(Subject, Measure)> {
    match per {
        Per::Shape(measure) => vec![(Subject::Shape, measure)],
        Per::Face(measure) => Face::BOTH
            .map(|face| (Subject::Face(face), measure(face)))
            .to_vec(),
        Per::Valve(measure) => Valve::ALL
            .into_iter()
            .filter(|&valve| !case.is_absent(Neighbour::Valve(valve)))
            .map(|valve| (Subject::Valve(valve), measure(valve)))
            .collect(),
        Per::Vessel { vein, artery } => match case.route {
            Route::Antegrade => vec![(Subject::Vein, vein)],
            Route::Retrograde => vec![(Subject::Artery, artery)],
            Route::Perventricular => Vec::new(),
        },
        Per::Artery(measure) => match case.route {
            Route::Retrograde => vec![(Subject::Artery, measure)],
            Route::Antegrade | Route::Perventricular => Vec::new(),
        },
    }
}
