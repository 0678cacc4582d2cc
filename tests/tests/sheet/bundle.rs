//! Several cases in one file: an index, then a page each.

use crate::made::{Ranked, words};
use outside::pdf::PdfFile;
use paper::{Body, Bundle, Paper, html, pdf, plain};

/// So many cases that their index needs more than one page.
const MANY: usize = 90;

fn many(count: usize, faults: &[&str]) -> Bundle {
    let sheet = Ranked::scenario("outlet-infant").sheet(1, Paper::A4);
    let sheets = (0..count).map(|number| {
        let mut one = sheet.clone();
        one.title = format!("Case number {number}");
        one
    });
    Bundle {
        sheets: sheets.collect(),
        faults: faults.iter().map(|&fault| fault.to_owned()).collect(),
        id: "0123".to_owned(),
        is_one: false,
    }
}

#[test]
fn one_case_has_no_index() {
    assert_eq!(many(1, &[]).index(), None);
    assert!(many(1, &["a fault"]).index().is_some());
    assert!(many(2, &[]).index().is_some());
}

#[test]
fn the_index_names_the_page_of_each_case() {
    let bundle = many(MANY, &["bad.ron: line 3, column 2: no such field"]);
    let file = PdfFile::read(&pdf::pdf(&bundle));
    let index = bundle.index().expect("an index");
    assert!(index.pages.len() > 1);
    let pages = file.pages();
    assert_eq!(pages.len(), index.pages.len() + MANY);
    let mut found = 0;
    for section in index.pages.iter().flatten() {
        let Body::Table { rows, .. } = &section.body else {
            continue;
        };
        for row in rows {
            let page: usize = row.cells[0].text.parse().expect("a page");
            let parts = file.parts(pages[page - 1]);
            assert_eq!(parts[0].text, row.cells[1].text);
            found += 1;
        }
    }
    assert_eq!(found, MANY);
    let first = file.parts(pages[0]);
    assert!(
        first
            .iter()
            .any(|part| part.text.contains("bad.ron: line 3"))
    );
    let number = format!("page 1 of {}", pages.len());
    assert!(
        first
            .iter()
            .any(|part| part.text == number && part.mark.is_none())
    );
}

#[test]
fn every_back_end_names_what_gave_no_sheet() {
    let bundle = many(2, &["bad.ron: line 3, column 2: no such field"]);
    for said in [plain::bundle(&bundle), html::html(&bundle)] {
        let said = words(&said);
        assert!(said.contains("bad.ron: line 3, column 2: no such field"));
        assert!(said.contains("Case number 0") && said.contains("Case number 1"));
    }
    let tags = PdfFile::read(&pdf::pdf(&bundle)).tags();
    assert!(words(&tags.read_aloud()).contains("bad.ron: line 3, column 2: no such field"));
}
