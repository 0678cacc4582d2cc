//! Every page draws at every size: a terminal may be of any, and for a moment of
//! a resize often is.

use super::stage::{FEW, after, assess, assessed, drawn, fail, kept, on_page, opened};
use crate::tui::theme::Theme;
use proptest::prelude::*;
use session::Session;
use std::sync::LazyLock;

/// Every width and height up to these is tried: here the page changes its form
/// from line to line.
const SMALL: (u16, u16) = (64, 18);
/// Steps of the larger sizes.
const STEPS: (usize, usize) = (31, 13);
/// The largest terminal.
const LARGEST: (u16, u16) = (250, 80);

/// Scenarios that put the page to different uses: two readings of one rim, no
/// neighbour at all, a reading that is missing, a headline of three lines.
const SCENARIOS: [&str; 4] = [
    "outlet-infant",
    "disputed-readings",
    "unmeasured-rim",
    "nothing-fits",
];

/// Keys that bring up every kind of page: each focus, each layer, one over the
/// other, a list without a line, the ends of lists.
const KEYS: [&str; 32] = [
    "",
    "tab",
    "tab tab G p p",
    "G",
    "enter",
    "enter x enter",
    "?",
    "? n o t h i n g",
    "? end page-down",
    "z",
    "z v f enter",
    "/ x x enter",
    "tab tab p p p > > f9",
    "2",
    "3",
    "4",
    "e down down",
    "a x enter",
    "N enter",
    "N x enter enter esc q",
    "A",
    "A x 9 9 9 9 enter",
    "N x enter enter 4 enter 7 enter page-down n e down",
    "N x enter enter end page-down page-down page-down page-down y enter u",
    "P D D",
    "5 end",
    "5 enter",
    "6 end S",
    "K",
    "6 e x enter",
    "6 down S c end",
    "5 enter up x enter down",
];

static PAGES: LazyLock<Vec<Session>> = LazyLock::new(|| {
    let mut pages = Vec::new();
    for scenario in SCENARIOS {
        let ready = assessed(scenario, FEW);
        let mut all_pinned = after(&ready, "tab tab p down p down p down p tab tab x");
        assess(&mut all_pinned, FEW);
        let mut failed = opened(scenario);
        fail(&mut failed, "a fault of the program");
        let stale = after(&ready, "right");
        let mut openables = ready.clone();
        kept(&mut openables, "O");
        pages.push(after(&openables, "end x"));
        pages.push(openables);
        for keys in ["2", "2 end right", "3 left", "4 page-down"] {
            pages.push(on_page(&ready, keys));
        }
        for session in [opened(scenario), ready, stale, all_pinned, failed] {
            pages.extend(KEYS.map(|keys| after(&session, keys)));
        }
    }
    pages
});

/// Draws pages at sizes: each size takes the next few pages, so that in the end
/// every kind of page meets every kind of size.
fn draw(sizes: impl Iterator<Item = (u16, u16)>, pages_a_size: usize, theme: Theme) {
    for (size, pages) in sizes.zip(PAGES.chunks(pages_a_size).cycle()) {
        for page in pages {
            drawn(page, theme, size);
        }
    }
}

#[test]
fn small_sizes() {
    let sizes = (1..=SMALL.0).flat_map(|width| (1..=SMALL.1).map(move |height| (width, height)));
    draw(sizes, 4, Theme::COLOUR);
}

#[test]
fn large_sizes() {
    let widths = (1..=LARGEST.0).step_by(STEPS.0).chain([LARGEST.0]);
    let heights = || (1..=LARGEST.1).step_by(STEPS.1).chain([LARGEST.1]);
    let sizes = widths.flat_map(|width| heights().map(move |height| (width, height)));
    draw(sizes, 11, Theme::MONO);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(512))]

    #[test]
    fn random_sizes(
        page in 0..PAGES.len(),
        width in 1..=LARGEST.0,
        height in 1..=LARGEST.1,
    ) {
        drawn(&PAGES[page], Theme::COLOUR, (width, height));
    }
}
