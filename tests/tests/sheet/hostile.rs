//! Hostile text in every field reaches no back end raw.

use crate::made::{Ranked, alone};
use crate::says::told_by_html;
use measurement::Quantity;
use outside::pdf::PdfFile;
use outside::sample::{scenario, shipped_catalogue, shipped_rules};
use paper::{Bundle, Paper, html, pdf, plain};
use proptest::prelude::*;

/// Markup, escapes, directions and what ends strings of a PDF or of XML.
const HOSTILE: &str = "</p></title><script>alert(1)</script>\" onload=\"x ]]> --> &amp; \
    \\) Tj ET (\u{1b}[2J\u{7}\u{202e}\0\r\n%%EOF endobj 心 <?xpacket end=\"w\"?>";

/// A bundle in which every text that a user writes is hostile.
fn bundle(text: &str) -> Bundle {
    let mut case = scenario("disputed-readings");
    text.clone_into(&mut case.title);
    for reading in &mut case.readings {
        reading.id.0 = format!("{}{text}", reading.id.0);
        reading.image = Some(text.to_owned());
    }
    let rim = Quantity::from_address("aortic.rim").expect("a rim");
    if let Some(reading) = case.readings.iter_mut().find(|one| one.quantity == rim) {
        reading.set_aside = Some(text.to_owned());
    }
    let mut catalogue = shipped_catalogue();
    for shape in &mut catalogue.shapes {
        shape.id = format!("{}{text}", shape.id);
        text.clone_into(&mut shape.name);
        for size in &mut shape.sizes {
            size.label = format!("{}{text}", size.label);
        }
    }
    let mut rules = shipped_rules();
    for row in &mut rules.caps {
        text.clone_into(&mut row.says);
    }
    for row in &mut rules.exclusions {
        text.clone_into(&mut row.fact);
    }
    for row in &mut rules.notes {
        text.clone_into(&mut row.says);
    }
    let mut bundle = alone(Ranked::of(case, &[catalogue], rules).sheet(2, Paper::A4));
    bundle.faults.push(files::visible(text).into_owned());
    bundle
}

fn check(text: &str) {
    let bundle = bundle(text);
    let html = html::html(&bundle);
    for raw in ["<script", "onload=\"", "<?xpacket", "]]>"] {
        assert!(!html.contains(raw), "{raw}");
    }
    for said in [&html, &plain::bundle(&bundle)] {
        let steers = |letter: char| letter.is_control() && !matches!(letter, '\n' | '\u{c}');
        assert!(!said.contains(steers));
        assert!(!said.contains('\u{202e}'));
    }
    // The file still reads, and what it says of itself is one title.
    let file = PdfFile::read(&pdf::pdf(&bundle));
    assert_eq!(file.pages().len(), 2);
    let metadata = file.metadata();
    assert_eq!(metadata.matches("</dc:title>").count(), 1);
    assert_eq!(metadata.matches("<?xpacket").count(), 2);
    let tags = file.tags();
    assert!(
        !tags
            .read_aloud()
            .contains(|letter: char| letter.is_control() && letter != '\n')
    );
    let title = files::visible(text);
    let title: String = title.chars().take(12).collect();
    assert!(told_by_html(&html).contains(&title));
    assert!(tags.read_aloud().contains(&title));
}

#[test]
fn hostile_text_reaches_no_back_end_raw() {
    check(HOSTILE);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(4))]
    #[test]
    fn whatever_a_file_says_every_back_end_reads(text in "[a-z]{12}[^\\s]{0,40}") {
        check(&text);
    }
}
