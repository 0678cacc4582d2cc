//! The words of the pictures reach the page whole where there is room for them.

use super::stage::{FEW, after, assessed, drawn, place, text};
use crate::tui::theme::Theme;

/// How often a word stands on the page as a word of its own.
fn count(page: &str, word: &str) -> usize {
    let is_end = |letter: Option<char>| letter.is_none_or(|letter| !letter.is_alphabetic());
    page.match_indices(word)
        .filter(|(at, _)| {
            is_end(page[..*at].chars().next_back())
                && is_end(page[at + word.len()..].chars().next())
        })
        .count()
}

fn page(scenario: &str, keys: &str, size: (u16, u16)) -> String {
    text(&drawn(
        &after(&assessed(scenario, FEW), keys),
        Theme::COLOUR,
        size,
    ))
}

#[test]
fn lengths_and_sides_stand_in_both_bays_at_every_usual_size() {
    for size in [(80, 24), (120, 40), (200, 60)] {
        let page = page("outlet-infant", "", size);
        let sides = if size.0 < 200 {
            ["LV", "RV"]
        } else {
            ["left ventricle", "right ventricle"]
        };
        for word in ["rim 1.7", "wall 3.4"].into_iter().chain(sides) {
            assert!(count(&page, word) >= 2, "{word} at {size:?}\n{page}");
        }
        for word in ["clearance 0.5", "clearance 0.7", "reach 1.2", "reach 1.0"] {
            assert!(count(&page, word) >= 1, "{word} at {size:?}\n{page}");
        }
    }
}

#[test]
fn the_clock_of_the_face_on_picture_is_whole_where_the_page_is_wide() {
    for size in [(120, 40), (200, 60)] {
        let page = page("outlet-infant", "", size);
        for word in [
            "12 base",
            "3 inlet",
            "6 apex",
            "9 outlet",
            "seen from the left ventricle",
        ] {
            assert!(count(&page, word) >= 1, "{word} at {size:?}\n{page}");
        }
    }
}

#[test]
fn the_drawing_alone_says_from_where_it_is_seen() {
    for size in [(80, 24), (120, 40), (200, 60)] {
        let page = page("outlet-infant", "z", size);
        for word in [
            "seen from the left ventricle",
            "left ventricle",
            "right ventricle",
            "rim 1.7",
        ] {
            assert!(count(&page, word) >= 1, "{word} at {size:?}\n{page}");
        }
    }
}

#[test]
fn dots_under_words_do_not_colour_them() {
    let page = drawn(&assessed("outlet-infant", FEW), Theme::COLOUR, (120, 40));
    for word in ["9 outlet", "3 inlet", "rim 1.7", "reach 1.0"] {
        let first = place(&page, word);
        for right in 0..u16::try_from(word.len()).unwrap() {
            let letter = &page[(first.x + right, first.y)];
            assert_eq!(letter.style(), page[first].style(), "{word}");
        }
    }
}

#[test]
fn a_chance_is_whole_in_large_figures_or_written_small() {
    let session = after(&assessed("outlet-infant", FEW), "P");
    let first = session.document().bays()[0];
    let assessed = session.results().assessed().unwrap();
    let chances = assessed.candidate(&first).unwrap().chances.unwrap();
    let small = format!("{:.0} % geometry chance", 100.0 * chances.chance.value);
    for width in [60, 80, 120] {
        let sizes = (15..=50).map(|height| (width, height));
        let pages = sizes.map(|size| text(&drawn(&session, Theme::COLOUR, size)));
        let large: Vec<usize> = pages
            .map(|page| {
                let large = page.lines().filter(|line| line.contains('█')).count();
                assert!(large == 5 || page.contains(&small), "{small}:\n{page}");
                large
            })
            .collect();
        assert!(large.iter().all(|rows| [0, 5].contains(rows)), "{large:?}");
        assert_eq!((large[0], large[35]), (0, 5));
    }
}
