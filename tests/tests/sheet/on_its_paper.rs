//! What is said has room on its page, and what has none is counted.

use crate::made::{Ranked, alone, scenarios};
use crate::says;
use outside::pdf::{Part, PdfFile};
use outside::sample::{scenario, shipped_catalogue, shipped_rules};
use paper::{Body, Paper, Sheet, Topic, pdf};
use typeface::{Weight, width};

/// Rounding of a place in the file, mm.
const ROUNDING: f64 = 0.01;
/// The least size of letters: 6.2 points in mm.
const LEAST: f64 = 6.2 * 25.4 / 72.0;

/// The one page of a sheet: what it prints, each word with its place.
fn printed(sheet: &Sheet) -> Vec<Part> {
    let file = PdfFile::read(&pdf::pdf(&alone(sheet.clone())));
    let pages = file.pages();
    assert_eq!(pages.len(), 1);
    file.parts(pages[0])
}

/// Asserts that every word lies on the paper, and none of the columns in the foot.
fn check(sheet: &Sheet, about: &str) {
    let parts = printed(sheet);
    let foot = parts
        .iter()
        .find(|part| part.text.starts_with("operator, date"));
    let foot = foot.expect("a signature").at[1];
    let first = &sheet.columns[1][0].heading;
    let columns = parts
        .iter()
        .position(|part| part.text.starts_with(first.as_str()));
    let columns = columns.expect("a column");
    let mut is_foot = false;
    for (index, part) in parts.iter().enumerate() {
        let weight = if part.face == "F1" {
            Weight::Bold
        } else {
            Weight::Regular
        };
        let end = part.at[0] + part.size * width(part.printed.trim_end(), weight);
        assert!(part.at[0] >= 0.0, "{about}: {part:?}");
        assert!(
            end <= sheet.paper.width() + ROUNDING,
            "{about}: {part:?} ends at {end}"
        );
        assert!(
            (0.0..sheet.paper.height()).contains(&part.at[1]),
            "{about}: {part:?}"
        );
        // A thousandth of a point is what the file rounds to.
        assert!(part.size >= LEAST - ROUNDING, "{about}: {part:?}");
        is_foot |= part.text.starts_with("operator, date");
        if index >= columns && !is_foot {
            assert!(part.at[1] < foot - 8.0, "{about}: {part:?} over {foot}");
        }
    }
}

/// However much there is to say, it lies on its page, and the sizes are seen in the heart.
#[test]
fn every_scenario_has_room_on_both_papers_with_its_pictures() {
    let otherwise = || {
        let says = "nothing of this form is inside every limit in half of the simulated \
                    variations; nearest, with 21 %: waist 5.1 mm, discs 0.8 mm wider, length \
                    2.5 mm; most often beyond the limit of clearance of the aortic valve.";
        ["Which reading: ", "What would fit: "].map(|title| (title, says.to_owned()))
    };
    let mut without = Vec::new();
    for name in scenarios() {
        let ranked = Ranked::scenario(name);
        for paper in Paper::ALL {
            for shown in 1..=4 {
                let otherwise = if ranked.ranking.nothing_fits() {
                    otherwise().to_vec()
                } else {
                    Vec::new()
                };
                let sheet = ranked.sheet_with(shown, paper, otherwise);
                let about = format!("{name}, {shown}, {paper:?}");
                check(&sheet, &about);
                if sheet.figure.is_none() {
                    without.push(about);
                }
            }
        }
    }
    assert!(without.is_empty(), "no figure: {without:#?}");
}

/// What is cut is counted: rows told and rows left out are all there are.
#[test]
fn what_has_no_room_is_counted() {
    for name in scenarios() {
        let ranked = Ranked::scenario(name);
        let sheet = ranked.sheet(4, Paper::Letter);
        let section = sheet.section(Topic::Ranked).expect("a list");
        assert_eq!(
            section.len() + section.left_out,
            ranked.ranking.candidates.len()
        );
        let Body::Table { rows, .. } = &section.body else {
            panic!("a table")
        };
        assert!(rows.len() >= 4, "{name}: what is drawn is listed");
        let warnings = sheet.section(Topic::Warnings).expect("warnings");
        assert!(!warnings.is_empty(), "{name}: the gravest warning stays");
        assert_eq!(warnings.left_out > 0, warnings.more().is_some());
    }
}

#[test]
fn a_title_of_ten_thousand_letters_is_cut_and_counted() {
    for (letter, letters) in [("x", 10_000), ("word ", 2_000), ("心", 10_000)] {
        let mut case = scenario("outlet-infant");
        case.title = letter.repeat(letters).trim_end().to_owned();
        let all = case.title.chars().count();
        let ranked = Ranked::of(case, &[shipped_catalogue()], shipped_rules());
        let sheet = ranked.sheet(2, Paper::A4);
        check(&sheet, letter);
        says::check(&sheet, letter);
        let (kept, rest) = sheet.title.split_once("… (").expect("a count");
        let rest: usize = rest
            .trim_end_matches(" more characters)")
            .parse()
            .expect("a number");
        let cut_blanks = usize::from(letter.ends_with(' '));
        assert!(
            kept.chars().count() + rest + cut_blanks >= all,
            "{}",
            sheet.title
        );
        assert!(kept.chars().count() + rest <= all, "{}", sheet.title);
    }
}

#[test]
fn a_letter_without_a_glyph_is_printed_as_its_code_point_and_copied_as_itself() {
    let mut case = scenario("outlet-infant");
    case.title = "Outlet 心室 defect".to_owned();
    let ranked = Ranked::of(case, &[shipped_catalogue()], shipped_rules());
    let parts = printed(&ranked.sheet(1, Paper::A4));
    let title = &parts[0];
    assert_eq!(title.printed, "Outlet U+5FC3U+5BA4 defect");
    assert_eq!(title.text, "Outlet 心室 defect");
}
