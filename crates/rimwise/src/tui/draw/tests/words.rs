//! The words of the pictures reach the page whole where there is room for them.

use super::stage::{FEW, after, assessed, drawn, place, text};
use crate::tui::theme::Theme;
use session::Session;

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
        let sides = [["LV", "left ventricle"], ["RV", "right ventricle"]];
        // At 80 columns the corner at the valve is shown, which is the left one's.
        let sides = &sides[..if size.0 < 100 { 1 } else { 2 }];
        for words in sides {
            let said: usize = words.iter().map(|word| count(&page, word)).sum();
            assert!(said >= 2, "{words:?} at {size:?}\n{page}");
        }
        for word in ["! 0.5 mm", "! 0.7 mm"] {
            assert!(count(&page, word) >= 1, "{word} at {size:?}\n{page}");
        }
    }
}

#[test]
fn the_clock_of_the_face_on_picture_is_whole_where_the_page_is_wide() {
    const QUARTERS: [&str; 4] = ["12 base", "3 inlet", "6 apex", "9 outlet"];
    for (size, keys) in [((120, 40), "z"), ((200, 60), ""), ((200, 60), "z")] {
        let page = page("outlet-infant", keys, size);
        // Where a valve leaves no room for the words the hour stands alone.
        for word in QUARTERS {
            let hour = word.split(' ').next().unwrap_or_default();
            let is_said = [word, hour].iter().any(|word| count(&page, word) >= 1);
            assert!(is_said, "{word} at {size:?}\n{page}");
        }
        let whole = QUARTERS.iter().filter(|word| count(&page, word) >= 1);
        assert!(whole.count() >= 3, "{size:?}\n{page}");
    }
}

#[test]
fn the_drawing_alone_says_from_where_it_is_seen() {
    for size in [(80, 24), (120, 40), (200, 60)] {
        let session = after(&assessed("outlet-infant", FEW), "z");
        let page = |session: &Session| text(&drawn(session, Theme::COLOUR, size));
        let shown = page(&session);
        for word in ["face-on from the left ventricle", "! 0.5 mm clear"] {
            assert!(count(&shown, word) >= 1, "{word} at {size:?}\n{shown}");
        }
        // The reading that a key would change stands at the foot.
        assert!(count(&shown, "defect, long axis") >= 1, "{size:?}\n{shown}");
        let other = page(&after(&session, "esc f z"));
        let said = "face-on from the right ventricle";
        assert!(count(&other, said) == 1, "{said} at {size:?}\n{other}");
        for (keys, said) in [("", "right"), ("esc V z", "left")] {
            let said = format!("{said} ventricle on the left");
            let page = page(&after(&session, keys));
            let is_said = count(&page, &said) == 1;
            assert!(is_said || size.0 < 100, "{said} at {size:?}\n{page}");
        }
    }
}

/// A picture whose side is cut from its caption is taken for its mirror image.
#[test]
fn the_caption_of_the_bays_says_whole_which_side_is_left() {
    for scenario in ["outlet-infant", "three-neighbours"] {
        for size in [(80, 24), (120, 40), (200, 60)] {
            let session = assessed(scenario, FEW);
            let page = text(&drawn(&session, Theme::COLOUR, size));
            // Seen from before and behind, each picture names both ventricles itself.
            let said = ["ventricle on the left", "face-on from the left ventricle"];
            let said = said.map(|one| count(&page, one));
            assert!(said.contains(&1), "{size:?}\n{page}");
        }
    }
}

#[test]
fn dots_under_words_do_not_colour_them() {
    let page = drawn(&assessed("outlet-infant", FEW), Theme::COLOUR, (200, 60));
    for word in ["9 outlet", "3 inlet", "rim 1.7", "! 0.5 mm"] {
        let first = place(&page, word);
        for right in 0..u16::try_from(word.len()).unwrap() {
            let letter = &page[(first.x + right, first.y)];
            assert_eq!(letter.style(), page[first].style(), "{word}");
        }
    }
}

/// Few words in a room: the chance in a hundred, one sentence, and the pictures have
/// the rest.
#[test]
fn in_a_room_pictures_have_the_height_and_each_device_one_sentence() {
    let session = after(&assessed("outlet-infant", FEW), "P");
    let first = session.document().bays()[0];
    let assessed = session.results().assessed().unwrap();
    let count = assessed.candidate(&first).unwrap().chance_in_hundred();
    let count = count.unwrap();
    for (size, most) in [((80, 24), 14), ((120, 40), 14), ((200, 60), 14)] {
        let page = text(&drawn(&session, Theme::COLOUR, size));
        let said = format!("inside every geometric limit in {count}");
        let whole = page.replace('\n', " ");
        assert!(
            size.0 < 120 || whole.contains(&said),
            "{said} at {size:?}\n{page}"
        );
        // Header, head, foot and footer take so many lines, the pictures all others.
        let words = page.lines().filter(|line| {
            let letters = line.chars().filter(|letter| letter.is_alphabetic()).count();
            letters > 30
        });
        assert!(words.count() <= most, "{size:?}\n{page}");
    }
}

#[test]
fn a_question_answers_every_key() {
    // Unsaved changes: leaving asks.
    for size in [(80, 24), (120, 40)] {
        let asked = page("mid-muscular", "right q", size);
        assert!(!asked.contains("is no answer here"), "{asked}");
        let page = page("mid-muscular", "right q x", size);
        assert!(page.contains("! x is no answer here"), "{page}");
        assert!(page.contains("esc"), "{page}");
    }
}
