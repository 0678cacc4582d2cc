//! The PDF is tagged: what somebody hears who cannot see it.

use crate::made::{Ranked, alone};
use outside::pdf::{Object, PdfFile, Tagged};
use paper::{Paper, pdf};

fn file(shown: usize) -> PdfFile {
    let sheet = Ranked::scenario("outlet-infant").sheet(shown, Paper::A4);
    PdfFile::read(&pdf::pdf(&alone(sheet)))
}

#[test]
fn the_file_says_its_title_and_its_language() {
    let file = file(2);
    let catalog = file.catalog();
    assert_eq!(file.get(catalog, "Lang").text(), "en-GB");
    let marked = file.get(catalog, "MarkInfo");
    assert_eq!(marked.get("Marked"), &Object::Truth(true));
    let view = file.get(catalog, "ViewerPreferences");
    assert_eq!(view.get("DisplayDocTitle"), &Object::Truth(true));
    let title = "Muscular outlet defect, 3.6 kg, short aortic rim";
    assert!(file.metadata().contains(&format!(">{title}<")));
}

#[test]
fn the_picture_is_told_in_a_sentence_a_device() {
    for shown in 1..=4 {
        let sheet = Ranked::scenario("outlet-infant").sheet(shown, Paper::A4);
        let sentences = sheet.figure.as_ref().expect("a figure").sentences.clone();
        assert_eq!(sentences.len(), shown);
        let tags = PdfFile::read(&pdf::pdf(&alone(sheet))).tags();
        let all = tags.all();
        let figures: Vec<&&Tagged> = all.iter().filter(|one| one.role == "Figure").collect();
        assert_eq!(figures.len(), 1);
        assert_eq!(figures[0].alternative_text, sentences.join(" "));
    }
}

/// The tags in the order in which they are heard, each role once where it repeats.
#[test]
fn the_order_of_tags_is_that_of_the_page() {
    let tags = file(2).tags();
    assert_eq!(tags.role, "Document");
    let mut roles: Vec<&str> = tags.children.iter().map(|one| one.role.as_str()).collect();
    roles.dedup();
    assert_eq!(
        roles[..6],
        ["H1", "P", "Figure", "H2", "Table", "P"],
        "{roles:?}"
    );
    let heads = tags.children.iter().filter(|one| one.role == "H2");
    let heads: Vec<&str> = heads.map(|one| one.words.trim()).collect();
    let place = |head: &str| {
        heads
            .iter()
            .position(|one| one.contains(head))
            .expect("a head")
    };
    assert!(place("Readings that count") < place("What decides"));
    assert!(place("What decides") < place("Not measured"));
    assert!(place("Not measured") < place("Ranked"));
    assert!(place("Ranked") < place("Warnings"));
    assert!(place("Warnings") < place("Release criteria"));
    // Signatures and provenance come last.
    let last = tags.children.last().expect("a tag");
    assert!(last.words.starts_with("rimwise"), "{last:?}");
}

#[test]
fn every_cell_of_a_table_stands_under_a_head() {
    let tags = file(2).tags();
    let all = tags.all();
    let tables: Vec<&&Tagged> = all.iter().filter(|one| one.role == "Table").collect();
    assert!(tables.len() >= 2);
    for table in tables {
        let rows = &table.children;
        assert!(rows.iter().all(|row| row.role == "TR"));
        let heads = &rows[0].children;
        assert!(
            heads
                .iter()
                .all(|head| head.role == "TH" && head.scope == "Column")
        );
        for row in &rows[1..] {
            assert_eq!(row.children.len(), heads.len());
            assert_eq!(
                (
                    row.children[0].role.as_str(),
                    row.children[0].scope.as_str()
                ),
                ("TH", "Row")
            );
            assert!(row.children[1..].iter().all(|cell| cell.role == "TD"));
        }
    }
}

/// Halos round letters are outlines: nothing is copied or heard twice, and what is
/// only seen is no text of a tag.
#[test]
fn each_text_is_there_once() {
    let file = file(2);
    let pages = file.pages();
    let parts = file.parts(pages[0]);
    for (index, one) in parts.iter().enumerate() {
        let again = parts[index + 1..].iter();
        let mut same = again.filter(|other| other.at == one.at && other.text == one.text);
        assert!(same.next().is_none(), "{one:?}");
        assert!(one.mark.is_some(), "{one:?} belongs to no tag");
    }
    let tags = file.tags();
    let told: String = tags.all().iter().map(|one| one.words.as_str()).collect();
    let printed: usize = parts.iter().map(|part| part.text.len()).sum();
    assert_eq!(told.len(), printed, "every word belongs to one tag");
}
