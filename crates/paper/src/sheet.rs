use crate::Paper;
use scene::stroke::Drawing;

/// One page for the whole team about one case, as plain data.
#[derive(Clone, Debug, PartialEq)]
pub struct Sheet {
    /// The paper that it has room on.
    pub paper: Paper,
    /// The case in one line.
    pub title: String,
    /// What kind of defect it is.
    pub site: String,
    /// The caution, whole.
    pub caution: String,
    /// What the empty place beside the title is for: nothing on the sheet names
    /// anybody.
    pub sticker: String,
    /// What is to be read from across the room: the headline, and what decides.
    pub headline: Vec<String>,
    /// What speaks against going on, and what keeps the list from being trusted;
    /// without a heading.
    pub alerts: Section,
    /// The sizes in the heart; `None` where nothing can be drawn.
    pub figure: Option<Figure>,
    /// Sections side by side: what was measured, and what came of it.
    pub columns: [Vec<Section>; 2],
    /// Who signs, each under a line.
    pub signatures: Vec<String>,
    /// What the figures are and what they were made from.
    pub provenance: Vec<String>,
}

/// The sizes in the heart, side by side at one scale.
#[derive(Clone, Debug, PartialEq)]
pub struct Figure {
    /// The pictures.
    pub drawing: Drawing,
    /// Millimetres of paper to a millimetre of the heart.
    pub scale: f64,
    /// What they show, a sentence a size.
    pub sentences: Vec<String>,
}

/// What a section is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Topic {
    /// What speaks against going on.
    Alerts,
    /// The readings that count.
    Readings,
    /// What decides.
    Decides,
    /// What was not measured, and what is assumed in its place.
    NotMeasured,
    /// Exceptions from the centre's rules.
    Exceptions,
    /// What is known of the site and the weight.
    Notes,
    /// Other ways than this one.
    OtherWays,
    /// The sizes in order.
    Ranked,
    /// Warnings and broken limits, the gravest first.
    Warnings,
    /// Release criteria, written before the procedure.
    Criteria,
    /// What was opened in the procedure, and what was seen.
    Deployments,
    /// What the room sees to.
    Room,
    /// The cases of a file.
    Index,
}

/// Something said under a heading.
#[derive(Clone, Debug, PartialEq)]
pub struct Section {
    /// What it is about.
    pub topic: Topic,
    /// Its heading; may be empty.
    pub heading: String,
    /// What holds of all that follows; may be empty.
    pub note: String,
    /// What it says.
    pub body: Body,
    /// How many lines or rows had no room.
    pub left_out: usize,
}

/// What a section says.
#[derive(Clone, Debug, PartialEq)]
pub enum Body {
    /// Lines, one under the other.
    Lines(Vec<Line>),
    /// A table.
    Table {
        /// The heads of its columns; the first names a row.
        heads: Vec<String>,
        /// Its rows.
        rows: Vec<TableRow>,
    },
}

/// A row of a table.
#[derive(Clone, Debug, PartialEq)]
pub struct TableRow {
    /// Its cells, one for each head.
    pub cells: Vec<Line>,
    /// Whether it stays however little room there is.
    pub is_kept: bool,
}

/// What a section left out, with its place.
#[derive(Debug)]
pub(crate) enum LeftOut {
    Line(usize, Line),
    Row(usize, TableRow),
}

/// A line of words.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Line {
    /// The mark beside it; the words say the same.
    pub mark: Option<Mark>,
    /// The words.
    pub text: String,
    /// Whether it stays however little room there is.
    pub is_kept: bool,
}

/// A mark drawn beside words that say the same.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Mark {
    /// Every limit holds.
    Ok,
    /// Inside a warning margin.
    Warning,
    /// Beyond a limit.
    Beyond,
    /// Not assessed, or not rated.
    NotKnown,
    /// A box to be ticked by hand.
    Box,
}

impl Line {
    /// Words without a mark.
    pub fn plain(text: impl Into<String>) -> Self {
        Self {
            text: text.into(),
            ..Self::default()
        }
    }

    /// Words with a mark.
    pub fn marked(mark: Mark, text: impl Into<String>) -> Self {
        Self {
            mark: Some(mark),
            ..Self::plain(text)
        }
    }

    /// The same line, which stays however little room there is.
    #[must_use]
    pub fn kept(mut self) -> Self {
        self.is_kept = true;
        self
    }
}

impl Section {
    /// Lines under a heading.
    pub fn lines(topic: Topic, heading: &str, lines: Vec<Line>) -> Self {
        Self {
            topic,
            heading: heading.to_owned(),
            note: String::new(),
            body: Body::Lines(lines),
            left_out: 0,
        }
    }

    /// A table under a heading.
    pub fn table(topic: Topic, heading: &str, heads: &[&str], rows: Vec<TableRow>) -> Self {
        Self {
            body: Body::Table {
                heads: heads.iter().map(|&head| head.to_owned()).collect(),
                rows,
            },
            ..Self::lines(topic, heading, Vec::new())
        }
    }

    /// The same with a note that holds of all its lines.
    #[must_use]
    pub(crate) fn with_note(mut self, note: impl Into<String>) -> Self {
        self.note = note.into();
        self
    }

    /// How many lines or rows it has.
    pub const fn len(&self) -> usize {
        match &self.body {
            Body::Lines(lines) => lines.len(),
            Body::Table { rows, .. } => rows.len(),
        }
    }

    /// Whether it has neither lines nor rows.
    pub const fn is_empty(&self) -> bool {
        self.len() == 0
    }

    /// What says how many lines had no room; `None` where all had.
    pub fn more(&self) -> Option<String> {
        (self.left_out > 0).then(|| format!("… and {} more", self.left_out))
    }

    /// Leaves out the last line or row that may go, and counts it; `None` where none
    /// may.
    pub(crate) fn leave_one_out(&mut self) -> Option<LeftOut> {
        let left_out = match &mut self.body {
            Body::Lines(lines) => {
                let index = lines.iter().rposition(|line| !line.is_kept)?;
                LeftOut::Line(index, lines.remove(index))
            }
            Body::Table { rows, .. } => {
                let index = rows.iter().rposition(|row| !row.is_kept)?;
                LeftOut::Row(index, rows.remove(index))
            }
        };
        self.left_out += 1;
        Some(left_out)
    }

    /// Puts back what was left out last.
    pub(crate) fn put_back(&mut self, left_out: LeftOut) {
        match (&mut self.body, left_out) {
            (Body::Lines(lines), LeftOut::Line(index, line)) => lines.insert(index, line),
            (Body::Table { rows, .. }, LeftOut::Row(index, row)) => rows.insert(index, row),
            (Body::Lines(_) | Body::Table { .. }, _) => return,
        }
        self.left_out -= 1;
    }

    /// All of its texts, in order.
    fn texts(&self) -> Vec<String> {
        let mut texts = vec![self.heading.clone(), self.note.clone()];
        match &self.body {
            Body::Lines(lines) => texts.extend(lines.iter().map(|line| line.text.clone())),
            Body::Table { heads, rows } => {
                texts.extend(heads.iter().cloned());
                let cells = rows.iter().flat_map(|row| &row.cells);
                texts.extend(cells.map(|cell| cell.text.clone()));
            }
        }
        texts.extend(self.more());
        texts
    }
}

impl Sheet {
    /// Every section, in the order in which they are read.
    pub fn sections(&self) -> impl Iterator<Item = &Section> {
        let columns = self.columns.iter().flatten();
        std::iter::once(&self.alerts).chain(columns)
    }

    /// The section on a topic.
    pub fn section(&self, topic: Topic) -> Option<&Section> {
        self.sections().find(|section| section.topic == topic)
    }

    /// Every text that a back end has to bring, in the order in which it is read.
    pub fn texts(&self) -> Vec<String> {
        let mut texts = vec![
            self.title.clone(),
            self.site.clone(),
            self.caution.clone(),
            self.sticker.clone(),
        ];
        texts.extend(self.headline.iter().cloned());
        texts.extend(self.alerts.texts());
        texts.extend(
            self.figure
                .iter()
                .flat_map(|figure| figure.sentences.clone()),
        );
        texts.extend(self.columns.iter().flatten().flat_map(Section::texts));
        texts.extend(self.signatures.iter().cloned());
        texts.extend(self.provenance.iter().cloned());
        texts.retain(|text| !text.is_empty());
        texts
    }
}
