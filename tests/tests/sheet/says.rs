//! Every text of the description stands in the text of each back end.

use crate::made::{Ranked, alone, scenarios, words};
use outside::pdf::PdfFile;
use paper::{Paper, Sheet, html, pdf, plain};

/// What a reader of an HTML file is told: its text without tags.
pub(crate) fn told_by_html(html: &str) -> String {
    let body = html.split_once("<body>").expect("a body").1;
    let mut text = String::new();
    let mut is_tag = false;
    for letter in body.chars() {
        match letter {
            '<' => {
                is_tag = true;
                text.push(' ');
            }
            '>' if is_tag => is_tag = false,
            letter if !is_tag => text.push(letter),
            _ => {}
        }
    }
    let named = [
        ("&lt;", "<"),
        ("&gt;", ">"),
        ("&quot;", "\""),
        ("&amp;", "&"),
    ];
    named
        .iter()
        .fold(text, |text, (name, letter)| text.replace(name, letter))
}

/// Asserts that all of a sheet is said by each back end.
pub(crate) fn check(sheet: &Sheet, about: &str) {
    let bundle = alone(sheet.clone());
    let file = PdfFile::read(&pdf::pdf(&bundle));
    let said = [
        ("text", plain::bundle(&bundle)),
        ("HTML", told_by_html(&html::html(&bundle))),
        ("PDF", file.tags().read_aloud()),
    ];
    for (back_end, said) in said {
        let said = words(&said);
        for text in sheet.texts() {
            let text = words(&text);
            assert!(
                said.contains(&text),
                "{about}, {back_end}: {text:?} in {said}"
            );
        }
    }
}

#[test]
fn every_text_stands_in_the_text_of_each_back_end() {
    for name in scenarios() {
        let ranked = Ranked::scenario(name);
        for paper in Paper::ALL {
            check(&ranked.sheet(2, paper), name);
        }
    }
    let ranked = Ranked::scenario("outlet-infant");
    for shown in 0..=4 {
        check(&ranked.sheet(shown, Paper::A4), "outlet-infant");
    }
}

/// Without looks the headline, what decides and the chance are where they are looked
/// for.
#[test]
fn the_first_lines_are_the_headline_and_what_decides() {
    let ranked = Ranked::scenario("outlet-infant");
    let sheet = ranked.sheet(2, Paper::A4);
    assert_eq!(sheet.headline[0], ranked.ranking.headline());
    assert!(
        sheet.headline[1].starts_with("What decides: "),
        "{:?}",
        sheet.headline
    );
    let text = plain::text(&sheet);
    let at = |what: &str| text.find(what).expect("a line");
    assert!(at("for discussion by licensed") < at("None of 158 sizes"));
    assert!(at("What decides: ") < at("inside limits (geometry only)"));
    assert!(
        text.lines().all(|line| line.chars().count() <= 80),
        "{text}"
    );
}

/// A geometry that would do says nothing of a child in whom it is excluded.
#[test]
fn an_excluded_case_shows_no_chance() {
    let sheet = Ranked::scenario("malaligned-septum").sheet(2, Paper::A4);
    assert!(sheet.headline[0].starts_with("Excluded, whatever the size"));
    let said = plain::text(&sheet);
    let said = words(&said);
    assert!(!said.contains("(geometry only) 9"), "{said}");
    assert!(said.contains("inside limits (geometry only) –"), "{said}");
}

#[test]
fn no_letter_of_ours_lacks_a_glyph() {
    use typeface::{Weight, missing_glyphs};
    for name in scenarios() {
        let sheet = Ranked::scenario(name).sheet(4, Paper::A4);
        let drawn = sheet.figure.iter().flat_map(|it| it.drawing.words());
        let drawn: Vec<String> = drawn.map(str::to_owned).collect();
        for text in sheet.texts().into_iter().chain(drawn) {
            for weight in Weight::ALL {
                assert_eq!(missing_glyphs(&text, weight), [], "{name}: {text}");
            }
        }
    }
}

#[test]
fn the_same_sheet_gives_the_same_bytes() {
    let made = || alone(Ranked::scenario("outlet-infant").sheet(2, Paper::A4));
    let (one, other) = (made(), made());
    assert_eq!(pdf::pdf(&one), pdf::pdf(&other));
    assert_eq!(html::html(&one), html::html(&other));
    assert_eq!(plain::bundle(&one), plain::bundle(&other));
}

/// Nothing is loaded and nothing runs.
#[test]
fn html_asks_nothing_of_the_world() {
    let bundle = alone(Ranked::scenario("outlet-infant").sheet(2, Paper::A4));
    let html = html::html(&bundle);
    assert!(html.contains("default-src 'none'; style-src 'unsafe-inline'"));
    for asks in [
        "<script",
        "src=",
        "href=",
        "url(",
        "@import",
        "http-equiv=\"refresh",
    ] {
        assert!(!html.contains(asks), "{asks}");
    }
    // The one address is the name of a language of drawings, which nobody loads.
    let addresses = html.matches("://").count();
    assert_eq!(
        addresses,
        html.matches("xmlns=\"http://www.w3.org/2000/svg\"").count()
    );
}
