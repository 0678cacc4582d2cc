//! What gives way where a page has not enough room: nothing goes uncounted.

use crate::layout::{self, Style};
use crate::sheet::LeftOut;
use crate::wrap::wrapped;
use crate::{Section, Sheet, Topic, glyphs};
use unicode_segmentation::UnicodeSegmentation;

/// In which order sections give way, and how many lines each keeps at that step. The
/// gravest warnings are the last to go.
const GIVES_WAY: [(Topic, usize); 23] = [
    (Topic::Notes, 1),
    (Topic::Readings, 12),
    (Topic::Ranked, 5),
    (Topic::NotMeasured, 3),
    (Topic::Warnings, 8),
    (Topic::Readings, 8),
    (Topic::Room, 4),
    (Topic::Deployments, 12),
    (Topic::Notes, 0),
    (Topic::Decides, 2),
    (Topic::Exceptions, 3),
    (Topic::NotMeasured, 2),
    (Topic::Criteria, 6),
    (Topic::Readings, 5),
    (Topic::Warnings, 5),
    (Topic::Room, 0),
    (Topic::Deployments, 6),
    (Topic::Decides, 1),
    (Topic::NotMeasured, 1),
    (Topic::Exceptions, 1),
    (Topic::Deployments, 2),
    (Topic::Ranked, 1),
    (Topic::Warnings, 1),
];

/// Leaves out of every column what has no room in it; `false` where a column is too
/// long even so. The figure is taken as it is.
pub(crate) fn into_columns(sheet: &mut Sheet) -> bool {
    let ends = layout::column_ends(sheet);
    let paper = sheet.paper;
    let mut columns = sheet.columns.iter_mut();
    columns.all(|sections| into_column(sections, |sections| ends.have_room(sections, paper)))
}

fn into_column(sections: &mut [Section], has_room: impl Fn(&[Section]) -> bool) -> bool {
    let mut left_out = Vec::new();
    while !has_room(sections) {
        let Some(one) = give_way(sections) else {
            return false;
        };
        left_out.push(one);
    }
    // Where the last to go was a long one, a shorter one may come back.
    let mut is_closed = vec![false; sections.len()];
    while let Some((index, one)) = left_out.pop() {
        if is_closed[index] {
            continue;
        }
        sections[index].put_back(one);
        if !has_room(sections) {
            is_closed[index] = true;
            sections[index].leave_one_out();
        }
    }
    true
}

/// Leaves one line out of the section whose turn it is; gives which it was and what;
/// `None` where nothing may go.
fn give_way(sections: &mut [Section]) -> Option<(usize, LeftOut)> {
    GIVES_WAY.iter().find_map(|&(topic, keeps)| {
        let mut all = sections.iter_mut().enumerate();
        let (index, section) =
            all.find(|(_, section)| section.topic == topic && section.len() > keeps)?;
        Some((index, section.leave_one_out()?))
    })
}

/// A text on so many lines at most; how many characters had no room is said at its
/// end.
pub(crate) fn clamped(text: &str, style: Style, width: f64, lines: usize) -> String {
    /// More letters than this never stand on a line.
    const MOST_ON_A_LINE: usize = 300;
    let measure = |text: &str| style.size * glyphs::width(text, style.weight);
    let has_room = |text: &str| wrapped(text, width, measure).len() <= lines;
    let most = MOST_ON_A_LINE * lines;
    let all = text.graphemes(true).count();
    if all <= most && has_room(text) {
        return text.to_owned();
    }
    let cut = |kept: usize| {
        let kept: String = text.graphemes(true).take(kept).collect();
        let rest = text.chars().count() - kept.chars().count();
        format!("{}… ({rest} more characters)", kept.trim_end())
    };
    // The longest beginning that has room lies between these.
    let (mut low, mut high) = (0, all.min(most));
    while low < high {
        let middle = (low + high).div_ceil(2);
        if has_room(&cut(middle)) {
            low = middle;
        } else {
            high = middle - 1;
        }
    }
    cut(low)
}

#[cfg(test)]
mod tests;
