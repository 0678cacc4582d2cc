//! What every back end draws: fills, lines and words on a page in millimetres.
//!
//! A stroke is already clipped and layered and says what it is ([`Part`]) and what
//! part it plays in the picture ([`Role`]), so a back end needs one colour table
//! and no knowledge of the heart. There are no gradients, filters, patterns or clip
//! paths: file, screen and sheet therefore draw one thing.

pub mod colours;
mod path;
mod role;

pub use colours::{PageGround, Rgb};
pub use path::{Path, PathStep};
pub use role::Role;

use crate::{Part, Point};
use typeface::Weight;

/// A page of strokes, x to the right and y downward from its upper left corner, in
/// millimetres of the page.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawing {
    /// Width of the page, mm.
    pub width: f64,
    /// Height of the page, mm.
    pub height: f64,
    /// What it shows, in one line.
    pub title: String,
    /// The same in whole sentences, for those who cannot see it.
    pub alternative_text: String,
    /// Its strokes, each drawn over those before it.
    pub strokes: Vec<Stroke>,
}

/// One thing drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct Stroke {
    /// What it is.
    pub part: Part,
    /// What part it plays, which decides its colour.
    pub role: Role,
    /// How it lies on the page.
    pub ink: Ink,
}

/// How a stroke lies on the page.
#[derive(Clone, Debug, PartialEq)]
pub enum Ink {
    /// A filled area (non-zero winding; open ends are joined).
    Fill(Path),
    /// A line along a path.
    Line {
        /// Where it runs.
        path: Path,
        /// Its width, mm.
        width: f64,
        /// Its dashes; `None` draws it solid.
        dash: Option<Dash>,
    },
    /// Words.
    Word(Word),
}

/// The lengths of a dash and of the gap after it, mm, both over 0.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Dash {
    /// Length drawn.
    pub on: f64,
    /// Length left out.
    pub off: f64,
}

/// Words on one line.
#[derive(Clone, Debug, PartialEq)]
pub struct Word {
    /// The anchor on the baseline.
    pub at: Point,
    /// The words.
    pub text: String,
    /// The em size, mm.
    pub size: f64,
    /// Where the anchor stands along the words.
    pub anchor: Anchor,
    /// Whether they are set bold.
    pub is_bold: bool,
    /// Whether the ground shows as a rim around the letters.
    pub has_halo: bool,
}

impl Stroke {
    /// Moves it on its page, to the right and down, mm.
    pub fn move_by(&mut self, right: f64, down: f64) {
        let moved = |point: &mut Point| {
            point.x += right;
            point.y += down;
        };
        match &mut self.ink {
            Ink::Fill(path) | Ink::Line { path, .. } => path.points_mut().for_each(moved),
            Ink::Word(word) => moved(&mut word.at),
        }
    }
}

impl Word {
    /// How far the words run, mm.
    pub fn width(&self) -> f64 {
        let weight = if self.is_bold {
            Weight::Bold
        } else {
            Weight::Regular
        };
        self.size * typeface::width(&self.text, weight)
    }
}

/// Where the anchor of words stands along them.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Anchor {
    /// At their first letter.
    Start,
    /// At their middle.
    Middle,
    /// At their last letter.
    End,
}
