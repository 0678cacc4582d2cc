//! A program that is played, step by step.

use super::desk::{Desk, FailingDisk, Start, files};
use crate::tui::draw::tests::stage;
use crate::tui::input::{Input, ReplyLabel};
use crate::tui::listen::Message;
use crate::tui::program::Program;
use crate::tui::recorder::Recorder;
use files::{Fault, parse_case, shipped};
use ratatui::Terminal;
use ratatui::backend::TestBackend;
use ratatui::buffer::Buffer;
use ratatui::layout::Size;
use session::{Assessor, Effect, Focus, Keeper, MapGrain, Reply, Request, Session, Status};
use sizing::Work;
use sizing::engine::Fast;
use std::fmt::Write;
use std::fs;
use std::hash::{DefaultHasher, Hash, Hasher};
use std::path::PathBuf;
use std::sync::atomic::AtomicBool;
use std::time::{Duration, Instant};

/// Something that is done to a program.
#[derive(Clone, Debug)]
pub(super) enum Act {
    /// Something comes in.
    In(Input),
    /// The open file is written by something else; `None`: taken away.
    Outside(Option<String>),
    /// A disk operation fails, after so many.
    Fail(usize, Fault),
}

/// A program with all that stands about it.
pub(super) struct Play {
    pub(super) program: Program,
    pub(super) disk: FailingDisk,
    /// A line for each step: what was done, and what is there after it.
    pub(super) transcript: Vec<String>,
    pub(super) has_ended: bool,
    desk: PathBuf,
    start: Instant,
    at: Duration,
    size: Size,
    page: Buffer,
    assessor: Assessor<'static>,
    /// What the worker is to be asked after this step.
    submitted: Option<Request>,
    /// What was asked for, with the answers, once they were worked out, and how many
    /// of them were given.
    asked: Vec<(Request, Option<Vec<Reply>>, usize)>,
}

/// A map that takes no time.
const COARSE: MapGrain = MapGrain {
    waists: 12,
    overhangs: 8,
    draws: 16,
};

/// Sizes that scripts know: all would take minutes.
const SIZES: [&str; 3] = ["5x3", "5x4", "12x4"];

/// What came with the program, some sizes of it.
fn session(desk: &Desk) -> Session {
    let text = fs::read_to_string(desk.case()).unwrap_or_default();
    let case = parse_case("case", &text).map(files::CaseFile::into_value);
    let case = case.unwrap_or_else(|_| stage::case("outlet-infant"));
    let mut shapes = stage::shapes();
    for shape in &mut shapes.shapes {
        shape.sizes.retain(|size| SIZES.contains(&&*size.label));
    }
    shapes.shapes.retain(|shape| !shape.sizes.is_empty());
    let (name, text) = shipped::GUIDANCE;
    let limits = files::parse_guidance(name, text).unwrap().into_value();
    Session::open(case, vec![shapes], stage::house_rules()).with_limits(limits)
}

impl Play {
    /// Starts a program and draws its first page.
    pub(super) fn new(start: Start, desk: &Desk, recorder: Option<Recorder>) -> Self {
        let disk = FailingDisk::new();
        let mut keeper = Keeper::on(disk.within(desk))
            .with_folder(&desk.path("state"))
            .with_own_shapes(&desk.path("shapes.ron"), None);
        let mut session = session(desk);
        if start != Start::Shipped {
            // What cannot be opened is told, and the demonstration stays.
            let _ = keeper.open(&mut session, &desk.case());
        }
        keeper.offer_unfiled(&mut session);
        let now = Instant::now();
        let folder = desk.path("");
        let mut play = Self {
            program: Program::new(session, keeper, recorder),
            disk,
            transcript: Vec::new(),
            has_ended: false,
            desk: folder,
            start: now,
            at: Duration::ZERO,
            size: Size::new(120, 40),
            page: Buffer::default(),
            assessor: Assessor::new(&Fast),
            submitted: None,
            asked: Vec::new(),
        };
        play.draw();
        play
    }

    /// Since the start.
    pub(super) const fn now(&self) -> Duration {
        self.at
    }

    /// Presses keys, written with spaces between.
    pub(super) fn press(&mut self, keys: &str) {
        for key in keys.split(' ') {
            let key = Input::Key(key.parse().unwrap());
            self.step(self.at + Duration::from_millis(10), &Act::In(key));
        }
    }

    /// Does one thing, and writes down what is there after it.
    pub(super) fn step(&mut self, at: Duration, act: &Act) {
        if self.has_ended {
            return;
        }
        self.at = at;
        match act {
            Act::In(input) => self.take(input),
            Act::Outside(Some(text)) => fs::write(self.desk.join("case.ron"), text).unwrap(),
            Act::Outside(None) => drop(fs::remove_file(self.desk.join("case.ron"))),
            Act::Fail(after, fault) => self.disk.arm(*after, *fault),
        }
        let line = self.line(act);
        self.transcript.push(line);
    }

    fn take(&mut self, input: &Input) {
        let now = self.start + self.at;
        if let Input::Size(size) = input {
            self.size = *size;
        }
        let Some(message) = self.message(input) else {
            return;
        };
        let is_touch = message.is_touch();
        self.program.take(message, now);
        if !self.run_effects() && is_touch {
            self.program.watch(now);
        }
        // As the loop does: what is to be said at once is.
        for _ in 0..2 {
            self.draw();
            if self.program.rest(now) != Some(Duration::ZERO) {
                break;
            }
        }
        self.run_effects();
        self.asked.extend(self.submitted.take().map(|request| {
            let request = Request {
                stages: &[0, 16],
                map: COARSE,
                work_up_draws: 16,
                ..request
            };
            (request, None, 0)
        }));
    }

    /// Runs what worker and terminal are to do; whether the program was stopped.
    fn run_effects(&mut self) -> bool {
        let mut was_stopped = false;
        for effect in self.program.take_effects() {
            match effect {
                Effect::Submit(request) => self.submitted = Some(*request),
                Effect::Leave => self.has_ended = true,
                Effect::Suspend => {
                    self.program.force();
                    was_stopped = true;
                }
                _ => {}
            }
        }
        was_stopped
    }

    fn draw(&mut self) {
        let now = self.start + self.at;
        let backend = TestBackend::new(self.size.width, self.size.height);
        let mut terminal = Terminal::new(backend).unwrap();
        terminal
            .draw(|frame| drop(self.program.draw(frame, now)))
            .unwrap();
        if self.program.settle(now) {
            terminal
                .draw(|frame| drop(self.program.draw(frame, now)))
                .unwrap();
        }
        self.page = terminal.backend().buffer().clone();
    }

    fn message(&mut self, input: &Input) -> Option<Message> {
        Some(match input {
            Input::Size(size) => Message::Resize(*size),
            Input::Key(key) => Message::Key(*key),
            Input::Paste(text) => Message::Paste(text.clone()),
            Input::Press(at) => Message::Press(*at),
            Input::Drag(at) => Message::Drag(*at),
            Input::Release => Message::Release,
            Input::Wheel(at, down) => Message::Wheel(*at, *down),
            Input::Reply(label) => Message::Reply(self.reply(*label)?),
            Input::Wait => Message::Redraw,
            Input::Suspend => Message::Suspend,
            Input::GoOn => Message::GoOn,
            Input::Leave => Message::Leave,
        })
    }

    /// How many requests were made.
    pub(super) const fn requests(&self) -> usize {
        self.asked.len()
    }

    /// The label of the next answer to the request with an index, if one is left.
    pub(super) fn next_answer(&mut self, index: usize) -> Option<ReplyLabel> {
        self.work_out(index);
        let (_, answers, given) = self.asked.get_mut(index)?;
        let label = answers.as_ref()?.get(*given).map(ReplyLabel::of);
        *given += 1;
        label
    }

    /// The answer with a label, of the newest request that has one.
    fn reply(&mut self, label: ReplyLabel) -> Option<Reply> {
        (0..self.asked.len()).rev().find_map(|index| {
            self.work_out(index);
            let answers = self.asked[index].1.as_ref()?;
            let mut answers = answers.iter();
            answers.find(|it| ReplyLabel::of(it) == label).cloned()
        })
    }

    fn work_out(&mut self, index: usize) {
        let Some((request, answers @ None, _)) = self.asked.get_mut(index) else {
            return;
        };
        let never = AtomicBool::new(false);
        let work = Work {
            threads: 1,
            cancel: &never,
        };
        let answers = answers.insert(Vec::new());
        self.assessor.answer(request, &work, |reply| {
            answers.push(reply);
            true
        });
    }

    fn line(&self, act: &Act) -> String {
        let session = &self.program.session;
        let status = match session.status() {
            Some(Status::Done(what)) => format!("done: {what}"),
            Some(Status::Undone(what)) => format!("undone: {what}"),
            Some(Status::Refused(why)) => format!("refused: {why}"),
            None => String::new(),
        };
        let view = session.view();
        let files = files(&self.desk);
        let is_journal = |name: &str| name.is_empty() || name.ends_with("rimwise-journal");
        let journals: Vec<_> = files.iter().filter(|(name, _)| is_journal(name)).collect();
        let others: Vec<_> = files.iter().filter(|(name, _)| !is_journal(name)).collect();
        let mut line = format!(
            "{} {act} | {status} | row {} of {} | {} overlays{} | journal {:x} | files {:x} | frame {:x}",
            self.at.as_millis(),
            view.selected[Focus::Readings],
            session.rows().len(),
            session.overlays().len(),
            if self.has_ended { ", ended" } else { "" },
            digest(&journals),
            digest(&others),
            digest(&self.page),
        );
        if std::env::var_os("RIMWISE_FRAMES").is_some() {
            let _ = write!(line, "\n{}", stage::text(&self.page));
        }
        line
    }

    /// What stands on the screen.
    pub(super) fn frame_text(&self) -> String {
        stage::text(&self.page)
    }
}

impl std::fmt::Display for Act {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::In(input) => write!(out, "{input}"),
            Self::Outside(Some(text)) => write!(out, "outside: {} bytes", text.len()),
            Self::Outside(None) => out.write_str("outside: taken away"),
            Self::Fail(after, fault) => write!(out, "fail: {fault:?} after {after}"),
        }
    }
}

fn digest(of: &impl Hash) -> u64 {
    let mut hasher = DefaultHasher::new();
    of.hash(&mut hasher);
    hasher.finish()
}
