//! What a terminal and its font make of pictures, styles and widths, on one screen.

use super::footer;
use super::lines;
use crate::told;
use crate::tui::painting::paint;
use crate::tui::theme::Theme;
use ratatui::Frame;
use ratatui::layout::{Constraint, Layout, Rect};
use ratatui::text::{Line, Span};
use ratatui::widgets::Clear;
use scene::stroke::{Drawing, Ink, Path, Role, Stroke};
use scene::{Part, Point};
use session::{Looks, Pictures, Session};
use sizing::{State, Verdict};
use unicode_width::UnicodeWidthStr;

/// Texts of characters of every width; the mark behind them stands in one column.
const WIDTHS: [(&str, &str); 4] = [
    ("plain", "aortic rim"),
    ("wide", "心室中隔"),
    ("marks", "e\u{301}a\u{308}o\u{302}"),
    ("signs", "≤ ± → ● ◐ ○ ✓ ✗ ≠"),
];
/// Columns of a text of them.
const TEXT: usize = 20;

/// Kinds of picture side by side.
const ABREAST: usize = 4;

/// Draws the card over the whole page.
pub(super) fn draw(frame: &mut Frame, session: &Session, theme: Theme, area: Rect) {
    frame.render_widget(Clear, area);
    let beside = "each circle round, each bar in one column";
    let area = lines::headed(frame, "Test card", beside, true, theme, area);
    let told = [states(theme), verdicts(theme), styles(theme)];
    let told: Vec<Line> = told.into_iter().chain(WIDTHS.map(width)).collect();
    let height = u16::try_from(told.len()).unwrap_or(u16::MAX);
    let [pictures, said, foot] = Layout::vertical([
        Constraint::Min(1),
        Constraint::Length(height),
        Constraint::Length(1),
    ])
    .areas(area);
    let looks = session.view().looks;
    let kinds = Pictures::ALL.chunks(ABREAST);
    let rows = Layout::vertical(kinds.clone().map(|_| Constraint::Fill(1)));
    for (kinds, row) in kinds.zip(rows.split(pictures).iter()) {
        let columns = Layout::horizontal([Constraint::Fill(1); ABREAST]).spacing(1);
        for ((name, pictures), room) in kinds.iter().zip(columns.split(*row).iter()) {
            let is_chosen = *pictures == looks.pictures.shown(looks.palette);
            let pictures = *pictures;
            let kind = Theme::of(Looks { pictures, ..looks });
            picture(frame, (name, is_chosen), kind, *room);
        }
    }
    lines::draw(frame, told, said);
    lines::draw(frame, vec![footer::keys(session, theme, foot.width)], foot);
}

/// A sample under the name of its kind, which is marked where it is chosen.
fn picture(frame: &mut Frame, (name, is_chosen): (&str, bool), theme: Theme, room: Rect) {
    let [head, body] = Layout::vertical([Constraint::Length(1), Constraint::Min(1)]).areas(room);
    let style = if is_chosen {
        theme.selected(true)
    } else {
        theme.strong()
    };
    lines::draw(frame, vec![Line::styled(name.to_owned(), style)], head);
    let body = body.intersection(frame.area());
    if !body.is_empty() {
        let sample = sample(f64::from(body.width), 2.0 * f64::from(body.height));
        paint(&sample, theme, body, frame.buffer_mut());
    }
}

/// A page of so many mm on which everything is that pictures tell apart: blood of
/// both sides, muscle, a device, a valve, what lies past it, and a circle.
fn sample(width: f64, height: f64) -> Drawing {
    let block = |left: f64, top: f64, right: f64, bottom: f64| {
        let corners = [(left, top), (right, top), (right, bottom), (left, bottom)];
        corners.map(|(x, y)| Point::new(x * width, y * height))
    };
    let fill = |role: Role, corners: [Point; 4]| Stroke {
        part: Part::Caption,
        role,
        ink: Ink::Fill(Path::polygon(corners)),
    };
    let line = |role: Role, points: Vec<Point>| Stroke {
        part: Part::Caption,
        role,
        ink: Ink::Line {
            path: Path::polyline(points),
            width: 0.6,
            dash: None,
        },
    };
    let radius = 0.4 * height.min(0.5 * width);
    let circle = (0..=60_u32).map(|step| {
        let angle = std::f64::consts::TAU * f64::from(step) / 60.0;
        let centre = (0.75 * width, 0.5 * height);
        Point::new(
            centre.0 + radius * angle.cos(),
            centre.1 + radius * angle.sin(),
        )
    });
    let plate = [(0.0, 0.28), (0.24, 0.28)].map(|(x, y)| Point::new(x * width, y * height));
    Drawing {
        width,
        height,
        title: String::new(),
        alternative_text: String::new(),
        strokes: vec![
            fill(Role::RightBlood, block(0.0, 0.0, 1.0, 1.0)),
            fill(Role::LeftBlood, block(0.0, 0.0, 0.24, 1.0)),
            fill(Role::Muscle, block(0.24, 0.0, 0.4, 1.0)),
            fill(Role::Device, block(0.24, 0.4, 0.4, 0.7)),
            fill(Role::Device, block(0.18, 0.15, 0.24, 0.9)),
            fill(Role::Device, block(0.4, 0.3, 0.46, 0.85)),
            fill(Role::Beyond, block(0.18, 0.15, 0.24, 0.28)),
            line(Role::Plate, plate.to_vec()),
            line(Role::Dimension, circle.collect()),
        ],
    }
}

fn states(theme: Theme) -> Line<'static> {
    let all = [State::Ok, State::Caution, State::Stop, State::NotAssessed];
    let said = |state: State| {
        let text = format!("{} {}  ", told::state_glyph(state), state.word());
        Span::styled(text, theme.state(state))
    };
    Line::from(all.map(said).to_vec())
}

fn verdicts(theme: Theme) -> Line<'static> {
    let all = [
        Verdict::Fits,
        Verdict::Borderline,
        Verdict::DoesNotFit,
        Verdict::NotRated,
    ];
    let said = |verdict: Verdict| {
        let text = format!("{} {}  ", told::verdict_glyph(verdict), verdict.word());
        Span::styled(text, theme.verdict(verdict))
    };
    Line::from(all.map(said).to_vec())
}

fn styles(theme: Theme) -> Line<'static> {
    Line::from(vec![
        Span::styled("plain  ", theme.text()),
        Span::styled("strong  ", theme.strong()),
        Span::styled("dim  ", theme.dim()),
        Span::styled("selected", theme.selected(true)),
        Span::raw("  "),
        Span::styled("selected elsewhere", theme.selected(false)),
    ])
}

fn width((name, text): (&'static str, &'static str)) -> Line<'static> {
    let blanks = " ".repeat(TEXT.saturating_sub(text.width()));
    Line::raw(format!("{name:<6} {text}{blanks}│"))
}
