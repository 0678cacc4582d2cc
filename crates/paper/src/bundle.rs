use crate::layout::{self, BODY};
use crate::{CAUTION, Line, Mark, Paper, Section, Sheet, TableRow, Topic, cut};

/// Sheets in one file, with an index where there are several.
#[derive(Clone, Debug, PartialEq)]
pub struct Bundle {
    /// The sheets, a page each, all on one paper.
    pub sheets: Vec<Sheet>,
    /// Files that gave no sheet, each with the reason; harmless text.
    pub faults: Vec<String>,
    /// A digest of what the file says, in hexadecimal digits: the same for the same
    /// sheets.
    pub id: String,
    /// Whether the sheets are the pages of one thing, which needs no index.
    pub is_one: bool,
}

/// The pages before several sheets.
#[derive(Clone, Debug, PartialEq)]
pub struct Index {
    /// Its title.
    pub title: String,
    /// The caution.
    pub caution: String,
    /// The cases, and the files that gave none; one list of sections a page.
    pub pages: Vec<Vec<Section>>,
}

impl Bundle {
    /// The title of the file.
    pub fn title(&self) -> String {
        match self.sheets.as_slice() {
            [first, ..] if self.is_one => first.title.clone(),
            [only] if self.faults.is_empty() => only.title.clone(),
            sheets => format!("{} cases for the conference", sheets.len()),
        }
    }

    /// The paper of its pages.
    pub fn paper(&self) -> Paper {
        self.sheets
            .first()
            .map(|sheet| sheet.paper)
            .unwrap_or_default()
    }

    /// The index; `None` where there is one sheet alone.
    pub fn index(&self) -> Option<Index> {
        if self.is_one || self.sheets.len() < 2 && self.faults.is_empty() {
            return None;
        }
        // Where the index needs more pages, the sheets stand further back.
        let mut pages = self.pages(1);
        if pages.len() > 1 {
            pages = self.pages(pages.len());
        }
        Some(Index {
            title: self.title(),
            caution: CAUTION.to_owned(),
            pages,
        })
    }

    /// The pages of the index, so many of which stand before the first sheet.
    fn pages(&self, before: usize) -> Vec<Vec<Section>> {
        let width = layout::content_width(self.paper());
        let faults = self.faults.iter().map(|fault| {
            let says = cut::clamped(fault, BODY, 0.9 * width, 3);
            Line::marked(Mark::Beyond, says)
        });
        let faults: Vec<Line> = faults.collect();
        let mut pages = vec![Vec::new()];
        if !faults.is_empty() {
            let heading = "Files without a sheet";
            pages[0].push(Section::lines(Topic::Index, heading, faults));
        }
        let heads = ["page", "case", "headline"];
        let table = |rows| Section::table(Topic::Index, "Cases", &heads, rows);
        let mut rows: Vec<TableRow> = Vec::new();
        for (index, sheet) in self.sheets.iter().enumerate() {
            rows.push(row(before + index + 1, sheet, width));
            let Some(last) = pages.last_mut() else {
                continue;
            };
            let mut tried = last.clone();
            tried.push(table(rows.clone()));
            if rows.len() > 1 && !layout::has_room(&tried, self.paper()) {
                let first_of_next = rows.split_off(rows.len() - 1);
                last.push(table(std::mem::replace(&mut rows, first_of_next)));
                pages.push(Vec::new());
            }
        }
        if let (Some(last), false) = (pages.last_mut(), rows.is_empty()) {
            last.push(table(rows));
        }
        pages
    }
}

/// A case in the index.
fn row(page: usize, sheet: &Sheet, width: f64) -> TableRow {
    let cell = |text: &str| Line::plain(cut::clamped(text, BODY, 0.4 * width, 2));
    TableRow {
        cells: vec![
            Line::plain(page.to_string()),
            cell(&sheet.title),
            cell(sheet.headline.first().map_or("", String::as_str)),
        ],
        is_kept: true,
    }
}
