//! Commands that change the page.

use super::{Change, Command};
use crate::overlay::Overlay;
use crate::{Page, Session};

pub(super) const COMMANDS: &[Command] = &[
    Command {
        id: Page::Plan.command(),
        name: "plan page",
        says: "the page with readings, candidates side by side and the ranked list",
        focus: &[],
        keys: &["1"],
        in_footer: false,
        change: |session| Ok(show(session, Page::Plan)),
    },
    Command {
        id: Page::Doubt.command(),
        name: "doubt page",
        says: "the page that says how sure the answer is and what would change it",
        focus: &[],
        keys: &["2"],
        in_footer: false,
        change: |session| Ok(show(session, Page::Doubt)),
    },
    Command {
        id: Page::FitMap.command(),
        name: "fit map page",
        says: "the page that maps what would fit, whether anyone makes it or not",
        focus: &[],
        keys: &["3"],
        in_footer: false,
        change: |session| Ok(show(session, Page::FitMap)),
    },
    Command {
        id: Page::WorkUp.command(),
        name: "work-up page",
        says: "the page that says whether the defect matters and what is unmeasured",
        focus: &[],
        keys: &["4"],
        in_footer: false,
        change: |session| Ok(show(session, Page::WorkUp)),
    },
    Command {
        id: Page::Rules.command(),
        name: "rules page",
        says: "the page with your centre's rules and their sources",
        focus: &[],
        keys: &["5"],
        in_footer: false,
        change: |session| Ok(show(session, Page::Rules)),
    },
    Command {
        id: Page::Shelf.command(),
        name: "stock page",
        says: "the page with the shapes there are and what is not in stock today",
        focus: &[],
        keys: &["6"],
        in_footer: false,
        change: |session| Ok(show(session, Page::Shelf)),
    },
    Command {
        id: Page::Trials.command(),
        name: "trials page",
        says: "the page with release criteria, deployments and what was seen in them",
        focus: &[],
        keys: &["7"],
        in_footer: false,
        change: |session| Ok(show(session, Page::Trials)),
    },
];

/// A page in the place of another; what lay over that one is closed.
fn show(session: &Session, page: Page) -> Change {
    let stays = |layer: &&Overlay| !matches!(layer, Overlay::Drawing | Overlay::TestCard);
    let overlays = session.overlays().iter().filter(stays).cloned();
    let mut view = session.view().clone();
    if view.focus.page() != page {
        view.show(page);
    }
    Change::View(Box::new(view), overlays.collect())
}
