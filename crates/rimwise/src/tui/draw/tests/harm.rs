//! What harms most is said first and whole, and is the last to go; a value never
//! looks like a margin.

use super::stage::{FEW, assessed, drawn, on_page, text};
use crate::told;
use crate::tui::draw::{LEAST_WIDTH, bay, checks};
use crate::tui::theme::Theme;
use sizing::{Candidate, State, Verdict};

const AV_BLOCK: &str = "AV block risk";

/// The lines of a candidate's checks in a bay.
fn told(candidate: &Candidate, width: u16, room: usize) -> Vec<String> {
    let lines = checks::lines(candidate, &[], Theme::MONO, width, room);
    lines.iter().map(ToString::to_string).collect()
}

fn candidates(scenario: &str) -> Vec<Candidate> {
    let session = assessed(scenario, FEW);
    let assessed = session.results().assessed().unwrap();
    assessed.ranking.candidates.clone()
}

fn warns_of_av_block(candidate: &Candidate) -> bool {
    let mut outcomes = candidate.outcomes.iter();
    outcomes.any(|one| one.check.starts_with("av_block_") && one.state == State::Caution)
}

#[test]
fn a_warning_of_av_block_is_whole_and_never_the_one_that_is_cut() {
    let candidates = candidates("bundle");
    let warned = candidates.iter().filter(|one| warns_of_av_block(one));
    let warned: Vec<&Candidate> = warned.step_by(7).collect();
    assert!(warned.len() > 3);
    for candidate in warned {
        for width in bay::LEAST_WIDTH..=60 {
            for room in 1..12 {
                let lines = told(candidate, width, room);
                assert!(lines.len() <= room);
                let broken = room < 3 && lines[0].starts_with('✗');
                assert!(
                    broken || lines.iter().any(|line| line.contains(AV_BLOCK)),
                    "{} in {width} columns and {room} lines: {lines:#?}",
                    candidate.name()
                );
            }
        }
        for outcome in &candidate.outcomes {
            if outcome.check.starts_with("av_block_") {
                assert!(outcome.says.starts_with(AV_BLOCK), "{}", outcome.says);
            }
        }
    }
}

/// The page of a small terminal whose candidate warns of AV block.
#[test]
fn on_a_small_terminal_guidance_goes_last_but_for_the_caution_and_av_block_before_it() {
    let session = on_page(&assessed("small-defect", FEW), "");
    for height in 1..=14 {
        let page = text(&drawn(&session, Theme::COLOUR, (50, height)));
        assert!(page.contains("not an order to close"), "{height}:\n{page}");
        assert_eq!(page.contains("!!"), height > 1, "{height}:\n{page}");
    }
    let mut session = assessed("bundle", FEW);
    let warned = session.listed().into_iter().position(warns_of_av_block);
    for _ in 0..warned.unwrap() {
        session = super::stage::after(&session, "tab tab down tab");
    }
    assert!(warns_of_av_block(session.candidate().unwrap()));
    for height in 3..=14 {
        let page = text(&drawn(&session, Theme::COLOUR, (50, height)));
        assert!(page.contains(AV_BLOCK), "{height}:\n{page}");
    }
    const { assert!(50 < LEAST_WIDTH) };
}

#[test]
fn a_value_bears_no_sign_beside_its_name() {
    let mut under_zero = 0;
    for scenario in ["outlet-infant", "thick-wall", "slit", "nothing-fits"] {
        for candidate in candidates(scenario) {
            for line in told(&candidate, 40, candidate.outcomes.len()) {
                assert!(!line.contains(" -") && !line.contains('+'), "{line}");
            }
            let values = candidate.outcomes.iter().filter_map(|one| one.value);
            under_zero += values.filter(|value| *value < 0.0).count();
        }
    }
    assert!(under_zero > 100, "{under_zero}");
}

#[test]
fn a_margin_says_that_it_is_one() {
    for candidate in candidates("outlet-infant") {
        let margin = told::nearest_stop(&candidate, 80).unwrap();
        let words = ["to spare", "under the limit", "over the limit"];
        assert!(words.iter().any(|word| margin.contains(word)), "{margin}");
        assert!(!margin.contains(['+', '-']), "{margin}");
    }
}

#[test]
fn no_name_of_a_check_is_cut_in_the_ranked_list() {
    for scenario in ["outlet-infant", "nothing-fits", "thick-wall", "slit"] {
        let session = assessed(scenario, FEW);
        for size in [(80, 24), (120, 40), (200, 60)] {
            let page = text(&drawn(&session, Theme::COLOUR, size));
            let words = ["to spare,", "spare,", " under", " over"];
            let margins = page.lines().filter(|line| {
                let verdict = line.contains('○') || line.contains('◐');
                verdict && words.iter().any(|word| line.contains(word))
            });
            for line in margins {
                assert!(
                    !line.trim_end().ends_with('…'),
                    "{scenario} {size:?}: {line}"
                );
            }
        }
    }
}

#[test]
fn what_no_disc_reaches_is_not_said_to_be_missing() {
    let page = text(&drawn(&assessed("bundle", FEW), Theme::COLOUR, (120, 40)));
    assert!(page.contains("out of reach"), "{page}");
    assert!(!page.contains("not there"), "{page}");
}

#[test]
fn the_fit_map_marks_sizes_with_no_glyph_of_a_verdict() {
    let verdicts = [Verdict::Fits, Verdict::Borderline, Verdict::DoesNotFit];
    let verdicts = verdicts.map(told::verdict_glyph);
    for (_, pictures) in session::Pictures::ALL {
        let looks = session::Looks {
            pictures,
            ..session::Looks::default()
        };
        for glyph in Theme::of(looks).map_glyphs() {
            assert!(!verdicts.contains(&glyph), "{glyph}");
        }
    }
}
