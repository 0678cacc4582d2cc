use super::judged::{Judgement, mark, overlap_words, role, value, verdict_role};
use super::lettering::Lettered;
use super::panel::circle;
use super::picture::Picture;
use super::section::OUTSIDE_CUT;
use super::{Column, LEADING};
use crate::stroke::{Anchor, Ink, Role, Stroke};
use crate::{Part, Point, View, words};
use geometry::{Face, Mm};
use measurement::Valve;
use sizing::{Candidate, Neighbour, Outcome, Setting, State, nominal_seat};

/// Letters of a name, of a verdict and of a fact, page mm.
const NAME: Mm = 3.6;
const VERDICT: Mm = 2.9;
const FACT: Mm = 2.5;

/// Dots that show a chance.
const DOTS: u32 = 20;

/// What is said over the pictures of one size.
#[derive(Debug)]
pub(super) struct Heading<'a> {
    name: &'a str,
    candidate: &'a Candidate,
    facts: Vec<(Role, String)>,
}

/// How close its lines stand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Spacing {
    /// On a page of its own.
    Wide,
    /// On a part of a page.
    Close,
}

impl<'a> Heading<'a> {
    pub(super) fn of(
        setting: &Setting,
        column: Column<'a>,
        pictures: &[(View, Option<&Picture>)],
    ) -> Self {
        let judgement = Judgement(column.candidate);
        let mut facts = vec![(Role::Word, form(setting, column.candidate))];
        for (view, picture) in pictures {
            match (view, picture) {
                (_, None) => facts.push((Role::Word, not_drawn(setting, *view))),
                (View::Section(valve), Some(picture)) => {
                    facts.push(clearance(setting, judgement, *valve, picture));
                }
                (View::FaceOn(_), Some(_)) => {}
            }
        }
        facts.extend(rim_overlaps(judgement, pictures));
        facts.extend(open_shares(judgement));
        let verdict = verdict_role(column.candidate.judged.verdict);
        // What the numbers above do not show is said.
        if verdict != Role::Ok && facts.iter().all(|(role, _)| *role != verdict) {
            facts.extend(column.reason.map(|reason| (verdict, reason.to_owned())));
        }
        Self {
            name: column.name,
            candidate: column.candidate,
            facts,
        }
    }

    /// All of it in one sentence.
    pub(super) fn sentence(&self) -> String {
        let facts: Vec<&str> = self.facts.iter().map(|(_, fact)| fact.as_str()).collect();
        format!("{}, {}: {}.", self.name, self.verdict(), facts.join("; "))
    }

    fn verdict(&self) -> String {
        let word = self.candidate.judged.verdict.word();
        match self.candidate.chance_in_per_cent() {
            Some(chance) => format!("{word}, inside limits (geometry only) {chance}"),
            None => word.to_owned(),
        }
    }

    /// Draws it from a height down; gives the height below it.
    pub(super) fn draw(
        &self,
        strokes: &mut Vec<Stroke>,
        x: Mm,
        width: Mm,
        y: Mm,
        spacing: Spacing,
    ) -> Mm {
        match spacing {
            Spacing::Wide => self.draw_wide(strokes, x, width, y),
            Spacing::Close => self.draw_close(strokes, x, width, y),
        }
    }

    fn name_words(&self) -> Lettered {
        Lettered::new(Part::Heading, Role::Word, self.name.to_owned(), NAME).bold()
    }

    fn verdict_words(&self) -> Lettered {
        let role = verdict_role(self.candidate.judged.verdict);
        Lettered::new(Part::Heading, role, self.verdict(), VERDICT).bold()
    }

    fn draw_wide(&self, strokes: &mut Vec<Stroke>, x: Mm, width: Mm, y: Mm) -> Mm {
        let mut y = y + LEADING + 1.0;
        put(strokes, self.name_words(), x, width, y);
        y += LEADING + 0.6;
        put(strokes, self.verdict_words(), x, width, y);
        y += LEADING;
        self.dots(strokes, x, y - 0.8);
        y += LEADING;
        for (role, fact) in &self.facts {
            put(strokes, fact_words(*role, fact), x, width, y);
            y += LEADING - 0.3;
        }
        y - 1.0
    }

    /// Name and verdict on one line, facts in two columns, where they have room.
    fn draw_close(&self, strokes: &mut Vec<Stroke>, x: Mm, width: Mm, y: Mm) -> Mm {
        const CLOSE: Mm = 3.2;
        const GAP: Mm = 3.0;
        let mut y = y + LEADING;
        let name = self.name_words().fitted(width);
        let after = x + name.width() + GAP;
        let verdict = self.verdict_words();
        put(strokes, name, x, width, y);
        if after + verdict.width() > x + width {
            for line in verdict.wrapped(width) {
                y += LEADING;
                put(strokes, line, x, width, y);
            }
        } else {
            put(strokes, verdict, after, width, y);
        }
        y += LEADING;
        let mut is_on_the_right = false;
        for (role, fact) in &self.facts {
            let words = fact_words(*role, fact);
            let is_short = words.width() <= 0.5 * width - GAP;
            if is_on_the_right && is_short {
                put(strokes, words, x + 0.5 * width, 0.5 * width, y - CLOSE);
                is_on_the_right = false;
            } else {
                for line in words.wrapped(width) {
                    put(strokes, line, x, width, y);
                    y += CLOSE;
                }
                is_on_the_right = is_short;
            }
        }
        y - CLOSE + 1.0
    }

    /// The chance as filled ones of twenty dots.
    fn dots(&self, strokes: &mut Vec<Stroke>, x: Mm, y: Mm) {
        /// Radius of a dot and of what an empty one leaves open; from dot to dot.
        const RADII: [Mm; 2] = [0.85, 0.6];
        const STEP: Mm = 2.3;
        let chances = self.candidate.chances.as_ref();
        let Some(chances) = chances.filter(|_| !self.candidate.is_case_excluded) else {
            return;
        };
        let role = verdict_role(self.candidate.judged.verdict);
        let filled = (f64::from(DOTS) * chances.chance.value).round();
        for dot in 0..DOTS {
            let centre = Point::new(x + RADII[0] + STEP * f64::from(dot), y);
            let mut put = |role, radius| {
                strokes.push(Stroke {
                    part: Part::Heading,
                    role,
                    ink: Ink::Fill(circle(centre, radius)),
                });
            };
            put(role, RADII[0]);
            if f64::from(dot) >= filled {
                put(Role::Ground, RADII[1]);
            }
        }
    }
}

fn fact_words(role: Role, fact: &str) -> Lettered {
    Lettered::new(Part::Heading, role, fact.to_owned(), FACT)
}

/// Puts words from a left end on, cut where they have no room.
fn put(strokes: &mut Vec<Stroke>, words: Lettered, x: Mm, width: Mm, y: Mm) {
    let words = words.fitted(width);
    strokes.push(words.at(Point::new(x, y), Anchor::Start, false));
}

/// The form of a size when free, and how far the defect squeezes its waist.
fn form(setting: &Setting, candidate: &Candidate) -> String {
    let occluder = &candidate.size.occluder;
    let seat = nominal_seat(setting, &candidate.size, candidate.turn);
    let discs: Vec<String> = Face::BOTH
        .into_iter()
        .filter_map(|face| {
            let disc = occluder.disc(face)?;
            let diameter = words::short(2.0 * disc.radius);
            Some(format!("{} disc {diameter} mm", words::side(face)))
        })
        .collect();
    format!(
        "waist {} × {} mm, {} mm wide in the defect; {}",
        words::short(occluder.waist.diameter),
        words::short(occluder.waist.length),
        words::tenths(seat.waist_diameter()),
        discs.join(", ")
    )
}

/// Why a view is not drawn.
fn not_drawn(setting: &Setting, view: View) -> String {
    let missing: Vec<&str> = view
        .missing(setting)
        .into_iter()
        .map(measurement::Quantity::label)
        .collect();
    let of = match view {
        View::Section(_) => "section",
        View::FaceOn(_) => "face-on view",
    };
    format!("{of} not drawn: no reading of {}", missing.join(", "))
}

fn clearance(
    setting: &Setting,
    judgement: Judgement,
    valve: Valve,
    picture: &Picture,
) -> (Role, String) {
    let label = valve.label();
    let Some(section) = picture.section().filter(|it| it.cut.hinged.is_some()) else {
        let text = if setting.case().is_absent(Neighbour::Valve(valve)) {
            format!("no {label} beside the defect")
        } else {
            format!("{label} not measured")
        };
        return (Role::Word, text);
    };
    let outcome = judgement.clearance(valve);
    let clearance = section.cut.place.clearance;
    let length = outcome
        .and_then(value)
        .unwrap_or_else(|| format!("{} mm", words::tenths(clearance)));
    let elsewhere = if section.is_clearance_drawn() {
        String::new()
    } else {
        format!("; {OUTSIDE_CUT}")
    };
    let mark = mark(outcome);
    let text = if clearance < 0.0 {
        let length = length.trim_start_matches('-');
        let hinge = label.trim_end_matches(" valve");
        format!("{mark}{length} past the {hinge} hinge{elsewhere}")
    } else {
        format!("{mark}{length} clear of the {label}{elsewhere}")
    };
    (word_role(outcome), text)
}

/// The least rim overlap of each disc.
fn rim_overlaps(
    judgement: Judgement,
    pictures: &[(View, Option<&Picture>)],
) -> Vec<(Role, String)> {
    let mut said = Vec::new();
    for face in Face::BOTH {
        let drawn = pictures
            .iter()
            .filter_map(|(_, picture)| (*picture)?.face_on())
            .find(|picture| picture.face == face)
            .and_then(|picture| picture.least);
        let outcome = judgement.rim_overlap(face);
        let least = outcome
            .and_then(|outcome| outcome.value)
            .or(drawn.map(|least| least.value));
        let Some(least) = least else { continue };
        let nowhere = match drawn {
            Some(least) if least.azimuth.is_none() => "; no line shows it",
            _ => "",
        };
        let text = format!(
            "{}{} disc: {}{nowhere}",
            mark(outcome),
            words::side(face),
            overlap_words(least, outcome)
        );
        said.push((word_role(outcome), text));
    }
    said
}

/// The outcome whose state is the worse.
fn worse<'a>(one: Option<&'a Outcome>, other: Option<&'a Outcome>) -> Option<&'a Outcome> {
    one.into_iter()
        .chain(other)
        .filter(|outcome| outcome.state != State::NotAssessed)
        .max_by_key(|outcome| outcome.state)
}

/// The open shares of both outflow tracts in one line.
fn open_shares(judgement: Judgement) -> Option<(Role, String)> {
    let outcomes = Face::BOTH.map(|face| judgement.open_share(face));
    let said: Vec<String> = Face::BOTH
        .iter()
        .zip(outcomes)
        .filter_map(|(&face, outcome)| {
            let tract = if face == Face::Left { "LVOT" } else { "RVOT" };
            let share = value(outcome?)?;
            Some(format!("{}{tract} {share} open", mark(outcome)))
        })
        .collect();
    let worst = worse(outcomes[0], outcomes[1]);
    (!said.is_empty()).then(|| (word_role(worst), said.join(" · ")))
}

/// The role of words about a value: plain where it is well.
fn word_role(outcome: Option<&Outcome>) -> Role {
    match role(outcome) {
        Role::Ok | Role::Dimension => Role::Word,
        role => role,
    }
}
