//! Words broken into lines, whatever their widths are counted in.

use std::ops::Add;
use unicode_segmentation::UnicodeSegmentation;

/// A line of a broken text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct WrappedLine {
    /// The line.
    pub(crate) text: String,
    /// Whether the next line goes on within a word.
    pub(crate) is_in_word: bool,
}

/// Words broken into lines of a room at blanks, as [`broken`] does, their words
/// alone.
pub(crate) fn wrapped<W>(text: &str, room: W, width: impl Fn(&str) -> W) -> Vec<String>
where
    W: Copy + PartialOrd + Add<Output = W> + Default,
{
    let lines = broken(text, room, width);
    lines.into_iter().map(|line| line.text).collect()
}

/// Words broken into lines of a room at blanks; a word longer than a line is cut
/// into pieces between whole letters. At least one line, empty for an empty text.
///
/// `width` measures a text; what it gives for two texts in a row is taken to be the
/// sum of both.
pub(crate) fn broken<W>(text: &str, room: W, width: impl Fn(&str) -> W) -> Vec<WrappedLine>
where
    W: Copy + PartialOrd + Add<Output = W> + Default,
{
    let blank = width(" ");
    let line = |text, is_in_word| WrappedLine { text, is_in_word };
    let mut lines = vec![line(String::new(), false)];
    let mut taken = W::default();
    for word in text.split_whitespace() {
        for (index, (piece, wide)) in pieces(word, room, &width).into_iter().enumerate() {
            let Some(last) = lines.last_mut() else {
                continue;
            };
            if last.text.is_empty() {
                last.text.push_str(&piece);
                taken = wide;
            } else if index == 0 && taken + blank + wide <= room {
                last.text.push(' ');
                last.text.push_str(&piece);
                taken = taken + blank + wide;
            } else {
                last.is_in_word = index > 0;
                lines.push(line(piece, false));
                taken = wide;
            }
        }
    }
    lines
}

/// A word in pieces of at most a room, each with its width; a single letter wider
/// than the room is a piece of its own.
fn pieces<W>(word: &str, room: W, width: &impl Fn(&str) -> W) -> Vec<(String, W)>
where
    W: Copy + PartialOrd + Add<Output = W> + Default,
{
    let whole = width(word);
    if whole <= room {
        return vec![(word.to_owned(), whole)];
    }
    let mut pieces = vec![(String::new(), W::default())];
    for letter in word.graphemes(true) {
        let wide = width(letter);
        if pieces
            .last()
            .is_some_and(|(piece, taken)| !piece.is_empty() && *taken + wide > room)
        {
            pieces.push((String::new(), W::default()));
        }
        if let Some((piece, taken)) = pieces.last_mut() {
            piece.push_str(letter);
            *taken = *taken + wide;
        }
    }
    pieces
}
