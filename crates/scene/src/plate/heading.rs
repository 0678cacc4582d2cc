use super::judged::{Judgement, mark, role, value, verdict_role};
use super::lettering::Lettered;
use super::panel::circle;
use super::picture::Picture;
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

impl<'a> Heading<'a> {
    pub(super) fn of(
        setting: &Setting,
        column: Column<'a>,
        pictures: &[(View, Option<&Picture>)],
    ) -> Self {
        let judgement = Judgement(Some(column.candidate));
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
        match chance(self.candidate) {
            Some(chance) => format!("{word}, inside limits (geometry only) {chance}"),
            None => word.to_owned(),
        }
    }

    /// Draws it from a height down; gives the height below it.
    pub(super) fn draw(&self, strokes: &mut Vec<Stroke>, x: Mm, width: Mm, y: Mm) -> Mm {
        let mut y = y + LEADING + 1.0;
        let mut put = |text: &str, role: Role, size: Mm, is_bold: bool, y: Mm| {
            let words = Lettered::new(Part::Heading, role, text.to_owned(), size);
            let words = if is_bold { words.bold() } else { words };
            let words = words.fitted(width);
            strokes.push(words.at(Point::new(x, y), Anchor::Start, false));
        };
        put(self.name, Role::Word, NAME, true, y);
        y += LEADING + 0.6;
        let verdict = verdict_role(self.candidate.judged.verdict);
        put(&self.verdict(), verdict, VERDICT, true, y);
        y += LEADING;
        let lines = y + LEADING;
        for (index, (role, fact)) in self.facts.iter().enumerate() {
            #[expect(clippy::cast_precision_loss, reason = "a few lines")]
            let y = lines + index as f64 * (LEADING - 0.3);
            put(fact, *role, FACT, false, y);
        }
        self.dots(strokes, x, y - 0.8, verdict);
        #[expect(clippy::cast_precision_loss, reason = "a few lines")]
        let below = lines + self.facts.len() as f64 * (LEADING - 0.3);
        below - 1.0
    }

    /// The chance as filled ones of twenty dots.
    fn dots(&self, strokes: &mut Vec<Stroke>, x: Mm, y: Mm, role: Role) {
        /// Radius of a dot and of what an empty one leaves open; from dot to dot.
        const RADII: [Mm; 2] = [0.85, 0.6];
        const STEP: Mm = 2.3;
        let Some(chances) = &self.candidate.chances else {
            return;
        };
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

/// A chance as whole per cent; a bound where a check with a limit was not assessed.
fn chance(candidate: &Candidate) -> Option<String> {
    let value = 100.0 * candidate.chances.as_ref()?.chance.value;
    let bound = if candidate.is_chance_whole() {
        ""
    } else {
        "at most "
    };
    Some(match value {
        value if value < 1.0 => "< 1 %".to_owned(),
        value if value > 99.0 && bound.is_empty() => "> 99 %".to_owned(),
        value => format!("{bound}{value:.0} %"),
    })
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
        ""
    } else {
        "; nearest point outside this cut"
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

/// A least rim overlap in words; below 0 the disc leaves the edge bare.
pub(super) fn overlap_words(least: Mm, outcome: Option<&Outcome>) -> String {
    let length = outcome
        .and_then(value)
        .unwrap_or_else(|| format!("{} mm", words::tenths(least)));
    if least < 0.0 {
        let length = length.trim_start_matches('-');
        format!("{length} of the edge bare")
    } else {
        format!("rim overlap {length}")
    }
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
