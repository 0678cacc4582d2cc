//! What the sheet of a case says.

mod alerts;
mod criteria;
mod deployments;
mod figure;
mod measured;
mod ranked;
mod warnings;

use crate::layout::{self, Style};
use crate::{Body, CAUTION, Line, Mark, Paper, Provenance, Section, Sheet, Topic, cut};
use scene::View;
use scene::plate::Orientation;
use sizing::break_even::{BreakEvens, break_even};
use sizing::rows;
use sizing::{Candidate, Draws, Ranking, Setting, device_name};
use std::borrow::Cow;
use workup::Workup;

/// What a sheet is made from.
#[derive(Clone, Debug)]
pub struct SheetRequest<'a> {
    /// The ranked list of the case.
    pub ranking: &'a Ranking,
    /// The work-up of the case.
    pub workup: &'a Workup,
    /// The draws as trials weigh them; `None` where none does.
    pub weighed: Option<&'a Draws>,
    /// One to four sizes of the list that are drawn and whose warnings are told.
    pub shown: Vec<&'a Candidate>,
    /// What would have to be otherwise where nothing fits, each with its title.
    pub otherwise: Vec<(&'a str, String)>,
    /// In what the case differs from an earlier state of it, in a sentence.
    pub since: Option<String>,
    /// What the figures were made from.
    pub from: &'a Provenance,
    /// Which ventricle a section has on its left.
    pub orientation: Orientation,
    /// The paper.
    pub paper: Paper,
    /// Makes text from files harmless.
    pub visible: for<'b> fn(&'b str) -> Cow<'b, str>,
}

/// The least scale to which pictures give way before anything is left out.
const LEAST_SCALE: f64 = 2.0;
/// The scale at most.
const LARGEST_SCALE: f64 = 3.5;
/// Under this nothing is told apart: a view less is shown, and where there is none left
/// that is said.
const SMALLEST_SCALE: f64 = 0.8;
/// By how much the scale goes down from one try to the next.
const STEP: f64 = 0.82;

impl SheetRequest<'_> {
    /// The sheet, cut to what has room on its paper. First the pictures give way, then
    /// the words, then the pictures again, and then the second view of each size.
    pub fn sheet(&self) -> Sheet {
        let whole = self.whole();
        let views = figure::views(self);
        let mut fewer = (1..=views.len()).rev();
        if let Some(sheet) = fewer.find_map(|count| self.with_views(whole.clone(), &views[..count]))
        {
            return sheet;
        }
        let mut sheet = whole;
        if let (false, Body::Lines(alerts)) = (views.is_empty(), &mut sheet.alerts.body) {
            let says = "There is no room for the pictures on this page.";
            alerts.push(Line::marked(Mark::NotKnown, says.to_owned()).kept());
        }
        cut::into_columns(&mut sheet);
        sheet
    }

    /// A sheet with these views, cut to what has room on its paper; `None` where there is
    /// not enough room for pictures in which something can be told apart.
    fn with_views(&self, mut whole: Sheet, views: &[View]) -> Option<Sheet> {
        let mut scale = LARGEST_SCALE;
        loop {
            let figure = figure::figure(self, views, scale)?;
            scale = figure.scale;
            whole.figure = Some(figure);
            if scale * STEP < LEAST_SCALE || layout::is_whole(&whole) {
                break;
            }
            scale *= STEP;
        }
        loop {
            let mut sheet = whole.clone();
            if cut::into_columns(&mut sheet) {
                return Some(sheet);
            }
            scale *= STEP;
            if scale < SMALLEST_SCALE {
                return None;
            }
            whole.figure = figure::figure(self, views, scale);
        }
    }

    /// All that there is to say, whether it has room or not.
    fn whole(&self) -> Sheet {
        let evens = self.break_evens();
        let ranking = self.ranking;
        let case = ranking.setting.case();
        let width = layout::content_width(self.paper);
        let title = self.text(&case.title);
        Sheet {
            paper: self.paper,
            title: cut::clamped(&title, layout::TITLE, layout::title_width(self.paper), 2),
            site: format!("{} ventricular septal defect", case.site.label()),
            caution: CAUTION.to_owned(),
            sticker: "place for the patient's sticker".to_owned(),
            headline: self
                .headline(evens.as_ref())
                .iter()
                .map(|says| cut::clamped(says, layout::HEADLINE, width, 3))
                .collect(),
            alerts: self.alerts(),
            figure: None,
            columns: [self.on_the_left(evens.as_ref()), self.on_the_right()],
            signatures: ["operator, date", "imaging, date", "anaesthesia, date"]
                .map(str::to_owned)
                .to_vec(),
            provenance: vec![self.from.chance_says(), self.from.whole()],
        }
    }

    fn on_the_left(&self, evens: Option<&BreakEvens>) -> Vec<Section> {
        let mut sections = vec![
            self.readings(evens),
            self.decides(evens),
            self.not_measured(),
        ];
        sections.extend(self.exceptions());
        sections.extend(self.notes());
        sections.push(self.other_ways());
        sections
    }

    fn on_the_right(&self) -> Vec<Section> {
        let mut sections = vec![self.ranked(), self.warnings(), self.criteria()];
        sections.extend(self.deployments());
        sections.push(criteria::room());
        sections
    }

    /// What is to be read from across the room.
    fn headline(&self, evens: Option<&BreakEvens>) -> Vec<String> {
        let mut says = vec![self.text(&self.ranking.headline())];
        let decides = evens.and_then(|evens| evens.decides(self.setting()));
        says.extend(decides.map(|decides| format!("What decides: {decides}.")));
        says
    }

    /// What the first of the drawn sizes hangs on.
    fn break_evens(&self) -> Option<BreakEvens> {
        let first = self.shown.first()?;
        if !self.ranking.excluded.is_empty() {
            return None;
        }
        let setting = self.setting();
        let rows = rows(setting, &first.size.occluder);
        Some(break_even(
            setting,
            &first.size,
            first.turn,
            &rows,
            self.weighed,
        ))
    }

    fn setting(&self) -> &Setting {
        &self.ranking.setting
    }

    /// Text made harmless.
    fn text(&self, text: &str) -> String {
        (self.visible)(text).into_owned()
    }

    /// A size as people call it, made harmless.
    fn device(&self, candidate: &Candidate) -> String {
        self.text(&device_name(&candidate.name()))
    }

    /// Text made harmless, on so many lines of a column at most.
    fn in_column(&self, text: &str, lines: usize) -> String {
        let width = layout::column_width(self.paper);
        self.clamped(text, layout::BODY, width, lines)
    }

    fn clamped(&self, text: &str, style: Style, width: f64, lines: usize) -> String {
        // A mark and what stands beside it take a little.
        const BESIDE: f64 = 4.0;
        cut::clamped(&self.text(text), style, width - BESIDE, lines)
    }

    fn lines(&self, texts: impl IntoIterator<Item = String>, lines: usize) -> Vec<Line> {
        let texts = texts.into_iter();
        texts
            .map(|text| Line::plain(self.in_column(&text, lines)))
            .collect()
    }

    /// What the rules and the site bring that has no other place.
    fn notes(&self) -> Option<Section> {
        let notes = self.ranking.notes.iter().cloned();
        let lines = self.lines(notes, 4);
        let section = Section::lines(Topic::Notes, "Of this site and weight", lines);
        (!section.is_empty()).then_some(section)
    }
}

/// A sentence that begins with a capital letter.
fn sentence(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).collect()
    })
}
