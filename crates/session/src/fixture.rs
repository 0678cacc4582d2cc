//! The shipped demonstration, opened, for tests.

use crate::worker::{RankingResult, Reply};
use crate::{Bay, MapGrain, Request, Session, Worker};
use sizing::engine::Fast;
use sizing::{Case, Catalogue, HouseRules};
use std::sync::atomic::AtomicBool;
use std::sync::{Arc, LazyLock};

pub(crate) fn case() -> Case {
    let (name, text) = files::shipped::SCENARIOS[0];
    files::parse_case(name, text).unwrap().into_value()
}

/// Sizes that tests speak of: all would take minutes.
const SIZES: [&str; 3] = ["5x3", "5x4", "12x4"];

static SHELF: LazyLock<Catalogue> = LazyLock::new(|| {
    let (name, text) = files::shipped::SHAPES;
    let mut shapes = files::parse_catalogue(name, text).unwrap().into_value();
    for shape in &mut shapes.shapes {
        shape
            .sizes
            .retain(|size| SIZES.contains(&size.label.as_str()));
    }
    shapes
});

static RULES: LazyLock<HouseRules> = LazyLock::new(|| {
    let (name, text) = files::shipped::HOUSE_RULES;
    files::parse_house_rules(name, text).unwrap().into_value()
});

/// A case against some of the shipped shapes and the shipped rules.
pub(crate) fn open(case: Case) -> Session {
    let (name, text) = files::shipped::GUIDANCE;
    let limits = files::parse_guidance(name, text).unwrap().into_value();
    Session::open(case, vec![SHELF.clone()], RULES.clone()).with_limits(limits)
}

/// The demonstration with more sizes than are counted together.
pub(crate) fn many() -> Session {
    const SHELVES: usize = 12;
    let shelves = (0..SHELVES).map(|number| {
        let mut shelf = SHELF.clone();
        for shape in &mut shelf.shapes {
            shape.id = format!("{}-{number}", shape.id);
        }
        shelf
    });
    Session::open(case(), shelves.collect(), RULES.clone())
}

/// The demonstration with one shape alone.
pub(crate) fn with_shape(id: &str) -> Session {
    let mut catalogue = SHELF.clone();
    catalogue.shapes.retain(|shape| shape.id == id);
    Session::open(case(), vec![catalogue], RULES.clone())
}

pub(crate) fn infant() -> Session {
    open(case())
}

/// The place of `shape/size` on the shelf.
pub(crate) fn place(name: &str) -> usize {
    let session = infant();
    let shelf = session.document().shelf();
    let places = shelf.shapes().flat_map(|(places, _)| places);
    places
        .into_iter()
        .find(|&place| Bay::new(place).name(shelf) == name)
        .unwrap()
}

/// Assesses what the session asks for, at the values as read.
pub(crate) fn assess(session: &mut Session) {
    if let Some(request) = session.take_request() {
        // Without draws: the ranking of the demonstration takes milliseconds.
        let never = AtomicBool::new(false);
        let work = sizing::Work {
            threads: 1,
            cancel: &never,
        };
        let setting = sizing::Setting::clone(&request.setting);
        let setting = Arc::new(files::worked_up(setting, request.limits.as_deref()));
        let ranking = sizing::rank(&setting, request.shelf.catalogues(), None, &work);
        session.receive(Reply::Assessed(Arc::new(RankingResult {
            generation: request.generation,
            draws: 0,
            is_last: true,
            setting,
            ranking: Arc::new(ranking.unwrap()),
            weighing: None,
            by_hand: Vec::new(),
        })));
    }
}

/// A map that takes no time.
const COARSE: MapGrain = MapGrain {
    waists: 30,
    overhangs: 20,
    draws: 64,
};

/// Has the worker answer what the page asks for, at the values as read.
pub(crate) fn answer(session: &mut Session) {
    let Some(request) = session.take_request() else {
        return;
    };
    let wanted = request.wanted.unwrap();
    let (sender, replies) = std::sync::mpsc::channel();
    let worker = Worker::start(Fast, 1, move |reply| sender.send(reply).is_ok()).unwrap();
    worker.submit(Request {
        stages: &[0],
        map: COARSE,
        work_up_draws: 64,
        ..request
    });
    while !session.results().is_there(wanted) {
        session.receive(replies.recv().unwrap());
    }
}

/// Presses keys, written with spaces between.
pub(crate) fn press(session: &mut Session, keys: &str) {
    for key in keys.split_whitespace() {
        session.key(key.parse().unwrap());
    }
}
