use super::Model;
use crate::bay::Bay;
use crate::page::Focus;
use crate::trial_row::{Condition, Pick, Picked, TrialRow, hour_of};
use sizing::Subject;
use sizing::trial::{ObservationKind, Procedure, Surprise};
use sizing::trial::{RoomBox, UsedKind};

/// The rows of the page of trials.
impl Model {
    /// The rows of a panel of the page of trials.
    pub fn trial_rows(&self, focus: Focus) -> Vec<TrialRow> {
        match focus {
            Focus::Before => before(self),
            Focus::Trials => trials(self),
            Focus::FollowUp => self.follow_up_rows(),
            _ => Vec::new(),
        }
    }

    /// Where the selected row stands in a panel of the page of trials.
    pub fn trial_place(&self, focus: Focus) -> usize {
        let selected = match focus {
            Focus::Before => self.view.before.as_ref(),
            Focus::FollowUp => self.view.later.as_ref(),
            _ => self.view.trial.as_ref(),
        };
        let rows = self.trial_rows(focus);
        let place = selected.and_then(|selected| rows.iter().position(|row| row == selected));
        place.unwrap_or(0)
    }

    /// The selected row of the panel that takes keys.
    pub fn trial_row(&self) -> Option<TrialRow> {
        let focus = self.view.focus;
        let place = self.trial_place(focus);
        self.trial_rows(focus).into_iter().nth(place)
    }

    /// Whether what stands on a row is offered alone, and counts once it is confirmed.
    pub fn is_offered(&self, row: &TrialRow) -> bool {
        matches!(&self.view.pick, Some((of, _)) if of == row)
    }

    /// What stands on a row now: what is offered, or what was confirmed before.
    pub fn picked(&self, row: &TrialRow) -> Option<Pick> {
        let offered = self.view().pick.as_ref();
        if let Some((_, pick)) = offered.filter(|(of, _)| of == row) {
            return Some(*pick);
        }
        let procedure = &self.document().case().procedure;
        let open = procedure.open();
        let plain = |what| Pick { what, hour: None };
        match row {
            TrialRow::Before(row, of) => procedure
                .before(*row, *of)
                .map(|it| plain(Picked::Seen(it))),
            TrialRow::Observation(what, of) => {
                let seen =
                    open?.seen.iter().rev().find(|one| {
                        one.what == *what && one.of == *of && one.set_aside.is_none()
                    })?;
                Some(Pick {
                    what: Picked::Seen(seen.seen),
                    hour: seen.clock_position.map(hour_of),
                })
            }
            TrialRow::Later(what, of) => {
                let mut seen = self.seen_on_day()?.seen.iter().rev();
                let seen =
                    seen.find(|one| one.what == *what && one.of == *of && one.set_aside.is_none())?;
                Some(Pick {
                    what: Picked::Seen(seen.seen),
                    hour: seen.clock_position.map(hour_of),
                })
            }
            TrialRow::Condition(Condition::WireAcross) => {
                Some(plain(Picked::Answer(open?.wire_across)))
            }
            TrialRow::Condition(Condition::Cable) => Some(plain(Picked::Cable(open?.cable))),
            TrialRow::Condition(Condition::SeatAsModelled) => {
                Some(plain(Picked::Answer(open?.seat_as_modelled)))
            }
            TrialRow::Observer => self.observer().map(|by| plain(Picked::By(by))),
            _ => None,
        }
    }
}

/// What weighs the draws and is no row of criteria.
const BESIDE_CRITERIA: [ObservationKind; 5] = [
    ObservationKind::Touches,
    ObservationKind::Distance,
    ObservationKind::Waist,
    ObservationKind::StandOff,
    ObservationKind::Turn,
];

fn before(model: &Model) -> Vec<TrialRow> {
    let procedure = &model.document().case().procedure;
    let sizes = sizes(model);
    let mut rows = vec![TrialRow::Minute];
    rows.extend(sizes.iter().cloned().map(TrialRow::Criteria));
    let mut looked = Vec::new();
    for one in &procedure.criteria {
        // Of a change nobody asks what was before.
        let is_asked = one.row == ObservationKind::Regurgitation;
        if is_asked && !looked.contains(&(one.row, one.of)) {
            looked.push((one.row, one.of));
        }
    }
    looked.extend(
        procedure
            .before
            .iter()
            .filter_map(|one| {
                let it = (one.row, one.of);
                (!looked.contains(&it)).then_some(it)
            })
            .collect::<Vec<_>>(),
    );
    rows.extend(
        looked
            .into_iter()
            .map(|(row, of)| TrialRow::Before(row, of)),
    );
    rows.extend(UsedKind::ALL.map(TrialRow::Used));
    rows.extend(RoomBox::ALL.map(TrialRow::Room));
    for size in &sizes {
        let written = procedure.criteria_of(size);
        rows.extend(written.map(|one| TrialRow::Written(size.clone(), one.row, one.of)));
    }
    rows
}

/// The sizes that are pinned or have criteria, by name.
fn sizes(model: &Model) -> Vec<String> {
    let mut names = pinned(model);
    for one in &model.document().case().procedure.criteria {
        if !names.contains(&one.size) {
            names.push(one.size.clone());
        }
    }
    names
}

/// The pinned sizes as the catalogue has them, each once.
fn pinned(model: &Model) -> Vec<String> {
    let document = model.document();
    let mut names = Vec::new();
    for bay in document.bays() {
        let plain = Bay {
            swapped: false,
            ..*bay
        };
        let name = plain.name(document.shelf());
        if !names.contains(&name) && !bay.swapped {
            names.push(name);
        }
    }
    names
}

fn trials(model: &Model) -> Vec<TrialRow> {
    let procedure = &model.document().case().procedure;
    let mut rows = Vec::new();
    if model.minute().is_none() {
        rows.push(TrialRow::Minute);
    }
    rows.extend(conflicts(model));
    let Some(open) = procedure.open() else {
        rows.extend(pinned(model).into_iter().map(TrialRow::Open));
        return rows;
    };
    rows.push(TrialRow::Observer);
    rows.extend(observations(model, procedure, &open.size));
    rows.extend(Condition::ALL.map(TrialRow::Condition));
    rows.push(TrialRow::CameOfIt);
    rows
}

/// What can be seen of an open size: its criteria first, then what only weighs.
fn observations(model: &Model, procedure: &Procedure, size: &str) -> Vec<TrialRow> {
    let criteria = procedure.criteria_of(size);
    let mut rows: Vec<TrialRow> = criteria
        .map(|one| TrialRow::Observation(one.row, one.of))
        .collect();
    let case = model.document().case();
    let is_there = |of: Subject| {
        of.valve()
            .is_none_or(|valve| !case.is_absent(sizing::Neighbour::Valve(valve)))
    };
    let subjects = Subject::ALL.into_iter().filter(|&of| is_there(of));
    for kind in BESIDE_CRITERIA {
        let of = subjects.clone().filter(|&of| kind.can_be_of(of));
        rows.extend(of.map(|of| TrialRow::Observation(kind, of)));
    }
    // What was seen though it is in no list, as a file may have it.
    let seen = procedure.open().into_iter().flat_map(|open| &open.seen);
    for one in seen {
        let row = TrialRow::Observation(one.what, one.of);
        if !rows.contains(&row) {
            rows.push(row);
        }
    }
    rows
}

/// The observations that the readings contradict, until a person sets one aside.
fn conflicts(model: &Model) -> Vec<TrialRow> {
    let Some(weighing) = model
        .results()
        .assessed()
        .and_then(|it| it.weighing.as_ref())
    else {
        return Vec::new();
    };
    let conflicts = weighing
        .conflicts()
        .filter(|(_, _, expected)| expected.surprise == Some(Surprise::Conflict));
    let trials = &model.document().case().procedure.trials;
    let stands = |id: &str| {
        let mut all = trials.iter().flat_map(|trial| &trial.seen);
        all.any(|one| one.id == id && one.set_aside.is_none())
    };
    conflicts
        .filter(|(_, id, _)| stands(id))
        .map(|(_, id, _)| TrialRow::Conflict(id.to_owned()))
        .collect()
}
