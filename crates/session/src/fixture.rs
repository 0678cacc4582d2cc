//! The shipped demonstration, opened, for tests.

use crate::worker::{Assessed, Reply};
use crate::{Bay, Edit, Row, Session};
use measurement::Quantity;
use sizing::engine::Plain;
use std::sync::Arc;
use std::sync::atomic::AtomicBool;

pub(crate) fn infant() -> Session {
    let parts = files::shipped::SCENARIOS[0];
    let case = files::parse_case(parts.0, parts.1).unwrap().value;
    let (name, text) = files::shipped::SHAPES;
    let shapes = files::parse_catalogue(name, text).unwrap().value;
    let (name, text) = files::shipped::HOUSE_RULES;
    let rules = files::parse_house_rules(name, text).unwrap().value;
    Session::open(case, vec![shapes], rules)
}

/// The place of `shape/size` on the shelf.
pub(crate) fn place(name: &str) -> usize {
    let session = infant();
    let shelf = session.document().shelf();
    (0..).find(|&place| Bay::new(place).name(shelf) == name).unwrap()
}

/// Assesses what the session asks for, at the values as read.
pub(crate) fn assess(session: &mut Session) {
    if let Some(request) = session.take_request() {
        let never = AtomicBool::new(false);
        let work = sizing::Work { engine: &Plain, threads: 1, cancel: &never };
        let ranking = sizing::rank(&request.setting, request.shelf.catalogues(), None, &work);
        session.receive(Reply::Assessed(Arc::new(Assessed {
            generation: request.generation,
            draws: 0,
            is_last: true,
            ranking: Arc::new(ranking.unwrap()),
            by_hand: Vec::new(),
        })));
    }
}

/// The demonstration with its first result.
pub(crate) fn assessed() -> Session {
    let mut session = infant();
    assess(&mut session);
    session
}

/// Selects the first line about a quantity.
pub(crate) fn select(session: &mut Session, address: &str) {
    let quantity = Quantity::from_address(address);
    let row = session.rows().iter().position(|row| row.quantity() == quantity).unwrap();
    session.select_row(row);
}

/// Gives the selected reading a value, as a step that is not part of a test.
pub(crate) fn set(session: &mut Session, value: f64) {
    let Some(Row::Reading(id, _)) = session.row().cloned() else { panic!("no reading") };
    session.apply_for_test(Edit::Value(id, value));
}

/// Presses keys, written with spaces between.
pub(crate) fn press(session: &mut Session, keys: &str) {
    for key in keys.split_whitespace() {
        session.key(key.parse().unwrap());
    }
}
