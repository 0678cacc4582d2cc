//! The shipped demonstration, opened, for tests.

use crate::worker::{Assessed, Reply};
use crate::{Bay, Session};
use sizing::Case;
use sizing::engine::Plain;
use std::sync::Arc;
use std::sync::atomic::AtomicBool;

pub(crate) fn case() -> Case {
    let (name, text) = files::shipped::SCENARIOS[0];
    files::parse_case(name, text).unwrap().into_value()
}

/// A case against the shipped shapes and rules.
pub(crate) fn open(case: Case) -> Session {
    let (name, text) = files::shipped::SHAPES;
    let shapes = files::parse_catalogue(name, text).unwrap().into_value();
    let (name, text) = files::shipped::HOUSE_RULES;
    let rules = files::parse_house_rules(name, text).unwrap().into_value();
    Session::open(case, vec![shapes], rules)
}

/// The demonstration with the first sizes of some shapes.
pub(crate) fn with_shapes(ids: &[&str], sizes: usize) -> Session {
    let session = infant();
    let mut catalogue = session.document().shelf().catalogues()[0].clone();
    catalogue.shapes.retain(|shape| ids.contains(&shape.id.as_str()));
    catalogue.shapes.iter_mut().for_each(|shape| shape.sizes.truncate(sizes));
    Session::open(case(), vec![catalogue], session.document().rules().clone())
}

pub(crate) fn infant() -> Session {
    open(case())
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
        // Without draws: the ranking of the demonstration takes milliseconds.
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

/// Presses keys, written with spaces between.
pub(crate) fn press(session: &mut Session, keys: &str) {
    for key in keys.split_whitespace() {
        session.key(key.parse().unwrap());
    }
}
