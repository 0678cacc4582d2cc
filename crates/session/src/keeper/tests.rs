mod any_keys;
mod disk;
mod failing;
mod rules;
mod sheet;
mod shelf;
mod unfiled;

use super::*;
use crate::fixture::{infant, press};
use crate::overlay::Overlay;
use crate::{Focus, Row, Status};
use measurement::{Finding, Reading};
use std::fs;
use std::os::unix::fs::PermissionsExt;

/// A folder with the demonstration in a file, gone with it.
struct Desk(PathBuf);

impl Desk {
    fn new(name: &str) -> Self {
        let folder = std::env::temp_dir().join(format!("rimwise-{name}-{}", std::process::id()));
        let _ = fs::remove_dir_all(&folder);
        fs::create_dir_all(&folder).unwrap();
        let desk = Self(folder);
        fs::write(desk.case(), files::shipped::SCENARIOS[0].1).unwrap();
        desk
    }

    fn case(&self) -> PathBuf {
        self.0.join("case.ron")
    }

    fn text(&self) -> String {
        fs::read_to_string(self.case()).unwrap()
    }

    /// The names of all that is in it, in order.
    fn names(&self) -> Vec<String> {
        let entries = fs::read_dir(&self.0).unwrap();
        let mut names: Vec<String> = entries
            .map(|entry| entry.unwrap().file_name().into_string().unwrap())
            .collect();
        names.sort();
        names
    }
}

impl Drop for Desk {
    fn drop(&mut self) {
        let _ = fs::remove_dir_all(&self.0);
    }
}

/// A window: a session with its keeper.
struct Window(Session, Keeper, Vec<Effect>);

impl Window {
    fn of_shipped() -> Self {
        Self(infant(), Keeper::default(), Vec::new())
    }

    /// With a folder where cases in no file are kept.
    fn of_shipped_at(desk: &Desk) -> Self {
        let mut window = Self(
            infant(),
            Keeper::default().with_folder(&desk.0.join("state")),
            Vec::new(),
        );
        window.1.offer_unfiled(&mut window.0);
        window
    }

    fn open(path: &Path) -> Self {
        let mut window = Self::of_shipped();
        window.1.open(&mut window.0, path).unwrap();
        window
    }

    fn press(&mut self, keys: &str) {
        for key in keys.split_whitespace() {
            press(&mut self.0, key);
            self.tend();
            self.1.watch(&mut self.0, Instant::now());
        }
    }

    /// Runs what is to be done.
    fn tend(&mut self) {
        let effects = self.0.effects();
        let others = self.1.run(&mut self.0, effects, Instant::now());
        self.2.extend(others);
    }

    /// Whether the program was asked to end.
    fn is_leaving(&self) -> bool {
        self.2.iter().any(|effect| matches!(effect, Effect::Leave))
    }

    /// Saves as a path that no keys could be written for.
    fn save_as(&mut self, path: &Path) {
        self.press("W ctrl-u");
        self.0.paste(&path.display().to_string());
        self.press("enter");
    }

    /// The longer axis of the throat, the first line of the readings, in mm.
    fn throat(&self) -> f64 {
        let readings = &self.0.document().case().readings;
        let throat = |one: &&Reading| one.quantity.address() == "defect.long_axis";
        readings.iter().find(throat).unwrap().value
    }

    fn says(&self) -> String {
        match self.0.status() {
            Some(Status::Done(what) | Status::Undone(what)) => what.clone(),
            Some(Status::Refused(why)) => why.clone(),
            None => String::new(),
        }
    }

    /// What the question over the page asks and is about.
    fn asks(&self) -> (String, Vec<String>) {
        match self.0.overlays().last() {
            Some(Overlay::Question(question)) => (question.asks.clone(), question.about.clone()),
            other => panic!("{other:?} is no question; {}", self.says()),
        }
    }
}

const CHANGED: &str = "defect, long axis 4.6 → 7.0 mm";

#[test]
fn what_was_changed_is_shown_after_a_crash_and_restored() {
    let desk = Desk::new("keeper-crash");
    let before = desk.text();
    let mut window = Window::open(&desk.case());
    window.press("enter 7 enter u U");
    drop(window);
    assert_eq!(desk.text(), before);

    let mut window = Window::open(&desk.case());
    let (asks, about) = window.asks();
    assert_eq!(
        asks,
        "1 change was made and not saved before the program ended."
    );
    assert_eq!(
        about,
        [CHANGED],
        "what was taken back and done again is one"
    );
    assert_eq!(
        window.throat(),
        4.6,
        "nothing is restored before it is asked"
    );
    window.press("esc right q r");
    assert!(!window.is_leaving());
    assert_eq!(window.throat(), 7.0);
    assert!(window.0.is_unsaved());
    window.press("u");
    assert_eq!(window.throat(), 4.6);
    assert!(!window.0.is_unsaved());
    window.press("U w");
    assert!(window.says().starts_with("saved "), "{}", window.says());
    assert!(!window.0.is_unsaved());
    drop(window);
    assert_eq!(desk.names(), ["case.ron"], "no journal is left");
    let kept = before.lines().filter(|line| line.contains("//")).count();
    let comments = desk
        .text()
        .lines()
        .filter(|line| line.contains("//"))
        .count();
    assert_eq!(comments, kept);
    assert_eq!(Window::open(&desk.case()).throat(), 7.0);
}

#[test]
fn what_is_dropped_is_not_asked_for_again() {
    let desk = Desk::new("keeper-drop");
    Window::open(&desk.case()).press("enter 7 enter");
    let mut window = Window::open(&desk.case());
    window.press("d");
    assert_eq!(window.throat(), 4.6);
    drop(window);
    let mut window = Window::open(&desk.case());
    assert!(window.0.overlays().is_empty());
    window.press("enter 8 enter");
    drop(window);
    assert_eq!(Window::open(&desk.case()).asks().1.len(), 1);
}

/// Each nudge is the system's as soon as it is shown; the row is one change.
#[test]
fn a_row_of_nudges_is_one_change_and_each_is_written_at_once() {
    let desk = Desk::new("keeper-nudges");
    let mut window = Window::open(&desk.case());
    let journalled = || Recovery::find(&Disk::default(), &desk.case(), Some(&desk.text())).unwrap();
    let nudged = |to: &str| vec![format!("defect, long axis 4.6 → {to} mm")];
    for to in ["4.7", "4.8", "4.9"] {
        window.press("right");
        assert_eq!(journalled().unwrap().changes, nudged(to), "before it rests");
    }
    // Forced to disk when it rests, and after a while whether it does or not.
    assert!(
        window
            .1
            .rest(&window.0, Instant::now())
            .is_some_and(|rest| rest <= NUDGING)
    );
    window.1.force_at_rest(&mut window.0, Instant::now());
    assert!(
        window.1.rest(&window.0, Instant::now()).is_some(),
        "a key held down goes on"
    );
    window.press("down");
    assert_eq!(
        window.1.rest(&window.0, Instant::now()),
        Some(Duration::ZERO)
    );
    window.1.force_at_rest(&mut window.0, Instant::now());
    assert_eq!(window.1.rest(&window.0, Instant::now()), None);
    window.press("up right");
    std::thread::sleep(NUDGING);
    window.1.force_at_rest(&mut window.0, Instant::now());
    assert_eq!(window.1.rest(&window.0, Instant::now()), None);
    window.press("right left left");
    assert_eq!(
        journalled().unwrap().changes,
        nudged("4.9"),
        "back where it began"
    );
    window.press("right right");
    // Nothing of it is tidied up in a crash.
    drop(window);
    let about = Window::open(&desk.case()).asks().1;
    let rows = ["4.6 → 4.9", "4.9 → 5.1"];
    assert_eq!(about, rows.map(|row| format!("defect, long axis {row} mm")));
}

#[test]
fn a_file_that_changed_on_disk_is_reloaded_or_written_over() {
    for (answer, mine) in [("r", false), ("o", true)] {
        let desk = Desk::new("keeper-changed");
        let mut window = Window::open(&desk.case());
        window.press("enter 7 enter");
        let theirs = desk.text().replacen("value: 4.6", "value: 5.5", 1);
        fs::write(desk.case(), &theirs).unwrap();
        window.press("w");
        let (asks, _) = window.asks();
        assert!(asks.contains("changed on disk since it was read"), "{asks}");
        assert_eq!(desk.text(), theirs);
        window.press(answer);
        assert!(!window.0.is_unsaved());
        assert_eq!(window.throat(), if mine { 7.0 } else { 5.5 });
        assert_eq!(desk.text() == theirs, !mine);
        if !mine {
            window.press("u");
            assert_eq!(window.throat(), 7.0, "what was changed here is a step back");
            window.press("w");
        }
        assert!(window.says().starts_with("saved "), "{}", window.says());
        drop(window);
        assert_eq!(Window::open(&desk.case()).throat(), 7.0);
    }
}

#[test]
fn a_finding_is_restored_and_saved_like_any_answer() {
    let desk = Desk::new("keeper-finding");
    let before = desk.text();
    let mut window = Window::open(&desk.case());
    let row = Row::Finding(Finding::ArchSeen);
    let row = window.0.rows().iter().position(|one| *one == row).unwrap();
    window.0.select_line(Focus::Readings, row);
    window.press("space");
    drop(window);
    let mut window = Window::open(&desk.case());
    assert_eq!(
        window.asks().1,
        ["arch seen from end to end: unknown → yes"]
    );
    window.press("r w");
    drop(window);
    assert_eq!(
        desk.text(),
        before.replacen("\"arch_seen\": unknown", "\"arch_seen\": yes", 1)
    );
}

#[test]
fn a_second_window_is_told_and_keeps_no_journal() {
    let desk = Desk::new("keeper-second");
    let first = Window::open(&desk.case());
    let mut second = Window::open(&desk.case());
    let who = format!("open in another window (process {}", std::process::id());
    assert!(second.says().starts_with(&who), "{}", second.says());
    second.press("enter 7 enter");
    assert_eq!(desk.names(), [".case.ron.rimwise-open", "case.ron"]);
    second.press("w");
    assert!(second.says().starts_with("saved "), "{}", second.says());
    drop((first, second));
    assert_eq!(desk.names(), ["case.ron"]);
}

#[test]
fn what_is_in_no_file_is_saved_where_it_is_told_and_kept_there() {
    let desk = Desk::new("keeper-nowhere");
    for (keys, name) in [
        ("enter 7 enter", "tried.ron"),
        ("N x enter enter esc", "new.ron"),
    ] {
        let mut window = Window::of_shipped();
        window.press(keys);
        assert!(window.0.is_unsaved());
        let path = desk.0.join(name);
        window.save_as(&desk.0.join("no folder").join(name));
        let Some(Overlay::Field(field)) = window.0.overlays().last() else {
            panic!("the path is asked for again; {}", window.says());
        };
        let error = field.error.clone().unwrap();
        assert!(
            error.contains("its folder does not exist. Make it"),
            "{error}"
        );
        window.press("esc");
        window.save_as(&path);
        assert!(window.says().starts_with("saved "), "{}", window.says());
        assert!(!window.0.is_unsaved());
        assert_eq!(
            read_case(&path).unwrap().value(),
            window.0.document().case()
        );
        // From here on it has a journal.
        window.press("N y enter enter esc u");
        assert_eq!(window.0.document().home().file(), Some(path.as_path()));
        drop(window);
    }
    assert_eq!(desk.names(), ["case.ron", "new.ron", "tried.ron"]);
}

#[test]
fn a_file_that_is_there_is_written_over_when_that_is_said() {
    let desk = Desk::new("keeper-exists");
    let before = desk.text();
    let mut window = Window::of_shipped();
    window.press("enter 7 enter");
    window.save_as(&desk.case());
    assert!(window.asks().0.contains("is there already"));
    window.press("esc");
    assert_eq!(desk.text(), before);
    window.save_as(&desk.case());
    window.press("o");
    assert!(window.says().starts_with("saved "), "{}", window.says());
    drop(window);
    assert_eq!(Window::open(&desk.case()).throat(), 7.0);
}

#[test]
fn saving_elsewhere_leaves_no_journal_at_the_file_that_is_left() {
    let desk = Desk::new("keeper-elsewhere");
    let before = desk.text();
    let mut window = Window::open(&desk.case());
    window.press("enter 7 enter");
    window.save_as(&desk.0.join("other.ron"));
    window.press("enter 8 enter w");
    drop(window);
    assert_eq!(desk.names(), ["case.ron", "other.ron"]);
    assert_eq!(desk.text(), before);
    assert_eq!(Window::open(&desk.0.join("other.ron")).throat(), 8.0);
}

#[test]
fn a_file_that_may_not_be_written_is_told_with_the_remedy() {
    let desk = Desk::new("keeper-read-only");
    let mut window = Window::open(&desk.case());
    fs::set_permissions(desk.case(), fs::Permissions::from_mode(0o444)).unwrap();
    window.press("enter 7 enter w");
    let says = window.says();
    assert!(says.ends_with("may only be read. Save under another name, or allow writing to it."));
    assert!(window.0.is_unsaved());
    drop(window);
    assert_eq!(Window::open(&desk.case()).asks().1, [CHANGED]);
}

#[test]
fn another_file_is_opened_in_its_place() {
    let desk = Desk::new("keeper-open");
    let other = desk.0.join("other.ron");
    fs::write(&other, files::shipped::SCENARIOS[1].1).unwrap();
    let mut window = Window::open(&desk.case());
    window.press("O");
    window.0.paste("/nowhere.ron");
    window.press("enter");
    assert!(matches!(window.0.overlays().last(), Some(Overlay::Open(it)) if it.error.is_some()));
    window.press("ctrl-u");
    window.0.paste(&other.display().to_string());
    window.press("enter");
    assert!(window.says().starts_with("opened "), "{}", window.says());
    assert!(!window.0.is_unsaved() && window.0.history().is_empty());
    assert_eq!(
        desk.names(),
        [".other.ron.rimwise-open", "case.ron", "other.ron"]
    );
    window.press("R");
    assert!(
        window.says().starts_with("unchanged: "),
        "{}",
        window.says()
    );
}

#[test]
fn a_case_that_no_file_may_say_is_told_and_stays() {
    let desk = Desk::new("keeper-faulty");
    let mut window = Window::open(&desk.case());
    let mut case = window.0.document().case().clone();
    case.title = String::new();
    let home = window.0.document().home().clone();
    window.0.file(FileEvent::Restored(case, home));
    window.press("w");
    assert!(
        window.says().starts_with("not written"),
        "{}",
        window.says()
    );
}

#[test]
fn a_new_case_over_the_open_file_or_that_file_again_is_no_second_window() {
    let desk = Desk::new("keeper-own");
    let mut window = Window::open(&desk.case());
    window.press("enter 7 enter N x enter enter esc O n");
    window.0.paste(&desk.case().display().to_string());
    window.press("enter");
    assert_eq!(window.asks().1, [CHANGED], "{}", window.says());
    window.press("r N x enter enter esc");
    window.save_as(&desk.case());
    window.press("o");
    assert!(window.says().starts_with("saved "), "{}", window.says());
    assert!(!window.0.is_unsaved() && window.0.has_journal());
    drop(window);
    assert_eq!(desk.names(), ["case.ron"]);
    assert_eq!(Window::open(&desk.case()).0.document().case().title, "x");
}

#[test]
fn a_change_that_the_journal_does_not_take_is_told_and_stays() {
    let desk = Desk::new("keeper-no-journal");
    let mut window = Window::open(&desk.case());
    assert!(window.0.has_journal());
    let journal = desk.0.join(".case.ron.rimwise-journal");
    fs::create_dir(&journal).unwrap();
    window.press("enter 7 enter");
    assert!(
        window.says().contains("not safe from a crash"),
        "{}",
        window.says()
    );
    assert_eq!(window.throat(), 7.0);
    assert!(!window.0.has_journal(), "leaving says what would be lost");
    fs::remove_dir(&journal).unwrap();
    window.press("enter 8 enter");
    assert!(window.0.has_journal());
    drop(window);
    assert_eq!(Window::open(&desk.case()).asks().1.len(), 1);
}
