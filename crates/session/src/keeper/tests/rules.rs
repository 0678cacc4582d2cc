//! Your centre's rules: a look-back over the folder of the case, and what a key puts in.

use super::*;
use crate::look_back::LookBackFound;
use crate::{LookBackPage, RulesHome};
use files::{parse_house_rules, shipped};
use sizing::HouseRules;
use std::sync::Arc;

/// The rules of a centre: those that came, with a remark by hand.
fn rules_text() -> String {
    let (_, text) = shipped::HOUSE_RULES;
    text.replacen("biases: []", "biases: [/* by hand */]", 1)
}

impl Desk {
    fn rules(&self) -> PathBuf {
        self.0.join("settings/rules.ron")
    }

    fn read_rules(&self) -> HouseRules {
        let file = files::read_house_rules(&self.rules()).unwrap();
        file.into_value()
    }

    /// With so many cases, in each of which the aortic rim was measured 0.5 to 0.7 mm
    /// larger than seen.
    fn with_cases(name: &str, count: u32) -> Self {
        let desk = Self::new(name);
        // A bias is of one way of measuring.
        let (one, other) = ("three_dimensional_echo", "transthoracic_echo");
        let text = desk.text().replace(one, other);
        let end = text.rfind(')').unwrap();
        let folder = desk.0.join("cases");
        fs::create_dir(&folder).unwrap();
        for case in 0..count {
            let seen = 1.4 + 0.1 * f64::from(case % 3) - 0.1;
            let percentiles: Vec<String> = (1..20)
                .map(|one| format!("{:.1}", 0.2 * f64::from(one)))
                .collect();
            let fields = format!(
                "case_id: \"case-{case:03}\", trials: [(id: \"t1\", size: \
                 \"even-narrow/5.5x2\", opened_min: 44, closed_min: 52, seen: [(id: \"s1\", \
                 what: distance, of: aortic_valve, value: {seen}, min: 46)], came_of_it: \
                 released, forecast: (opened: (ess: 4096, inside: 0.6, seen: [(what: distance, \
                 of: aortic_valve, by_readings: 2.0, at_zero: 0, percentiles: [{}])])))]",
                percentiles.join(", ")
            );
            let text = format!("{}{fields}\n)\n", &text[..end]);
            fs::write(folder.join(format!("case-{case:03}.ron")), text).unwrap();
        }
        desk
    }

    /// A window on its first case, by rules in a file.
    fn looking_back(&self) -> Window {
        let path = self.rules();
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(&path, rules_text()).unwrap();
        self.window(RulesHome::File(path))
    }

    fn window(&self, home: RulesHome) -> Window {
        let path = self.rules();
        let file = match &home {
            RulesHome::File(_) => files::read_house_rules(&path).unwrap(),
            _ => parse_house_rules(shipped::HOUSE_RULES.0, shipped::HOUSE_RULES.1).unwrap(),
        };
        let file = Arc::new(file);
        let kept = matches!(home, RulesHome::File(_)).then(|| Arc::clone(&file));
        let mut keeper = Keeper::default();
        if home != RulesHome::Nowhere {
            keeper = keeper.with_own_rules(&path, kept);
        }
        let session = infant().with_rules_file(file, home);
        let mut window = Window(session, keeper, Vec::new());
        let case = self.0.join("cases/case-000.ron");
        window.1.open(&mut window.0, &case).unwrap();
        window.press("5 B");
        window.look_back();
        window
    }
}

impl Window {
    /// Does what another thread would.
    fn look_back(&mut self) {
        for effect in std::mem::take(&mut self.2) {
            if let Effect::LookBack(order) = effect {
                let result = Keeper::look_back(&order, 2);
                self.0.update(Event::LookedBack(result));
            }
        }
    }

    fn page(&self) -> &LookBackPage {
        match self.0.overlays().last() {
            Some(Overlay::LookBack(page)) => page,
            other => panic!("{other:?} is no look-back; {}", self.says()),
        }
    }

    fn found(&self) -> &LookBackFound {
        self.page().found.as_ref().unwrap().as_ref().unwrap()
    }
}

#[test]
fn a_key_puts_a_proposed_row_into_the_rules_and_undo_takes_it_out() {
    let desk = Desk::with_cases("rules-key", 40);
    let mut window = desk.looking_back();
    let rules = || fs::read_to_string(desk.rules()).unwrap();
    assert_eq!(rules(), rules_text(), "a look-back writes nothing");
    let proposals = window.page().proposals(window.0.document().rules());
    let [proposal] = &proposals[..] else {
        panic!("{proposals:?}")
    };
    assert!(!proposal.is_there && proposal.key == '1');
    window.press("2");
    assert!(window.0.overlays().len() == 1, "no such proposal");

    window.press("1");
    let (asks, about) = window.asks();
    assert!(
        asks.starts_with("Put into your centre's rules? aortic rim, by ")
            && asks.ends_with(", n 40"),
        "{asks}"
    );
    assert_eq!(
        about[..2],
        ["now: nothing taken off", "then: 0.60 mm taken off"]
    );
    window.press("esc 1 n");
    assert_eq!(rules(), rules_text(), "only yes writes");
    window.press("y");
    assert!(
        window.says().contains("0.60 mm taken off; kept in "),
        "{}",
        window.says()
    );
    let row = &desk.read_rules().biases[0];
    assert_eq!(
        (row.too_large_by, row.source.as_str()),
        (0.6, "your centre's look-back, n 40")
    );
    let put_in = "biases: [\n        (of: [\"aortic.rim\"], by: [transthoracic_echo], \
                  too_large_by: 0.6, source: \"your centre's look-back, n 40\"),/* by hand */]";
    let expected = rules_text().replacen("biases: [/* by hand */]", put_in, 1);
    assert_eq!(rules(), expected, "all else byte for byte");
    assert_eq!(window.0.document().rules().biases.len(), 1);
    assert_eq!(window.0.setting().rules().biases.len(), 1);
    assert!(
        window.0.results().is_awaited(),
        "the list is asked for again"
    );
    assert!(!window.0.is_unsaved(), "the case is as it was");

    // The cases are from before the row: once is enough.
    assert!(window.page().proposals(window.0.document().rules())[0].is_there);
    window.press("1");
    assert!(
        window.page().refused.contains("would count twice"),
        "{}",
        window.page().refused
    );
    window.press("esc u");
    assert_eq!(rules(), rules_text(), "byte for byte");
    assert!(window.0.document().rules().biases.is_empty());
    window.press("U");
    assert_eq!(desk.read_rules().biases.len(), 1);
}

/// What others wrote into the rules is never written over.
#[test]
fn rules_that_something_else_changed_are_read_when_told() {
    let desk = Desk::with_cases("rules-changed", 40);
    let mut window = desk.looking_back();
    let theirs = rules_text().replacen("/* by hand */", "/* by others */", 1);
    fs::write(desk.rules(), &theirs).unwrap();
    window.press("1 y");
    let (asks, _) = window.asks();
    assert!(asks.contains("changed on disk since"), "{asks}");
    window.press("o");
    assert_eq!(fs::read_to_string(desk.rules()).unwrap(), theirs);
    window.press("r");
    assert!(
        window.says().starts_with("read again: "),
        "{}",
        window.says()
    );
    assert!(window.0.document().rules().biases.is_empty());
    window.press("1 y");
    let text = fs::read_to_string(desk.rules()).unwrap();
    assert!(text.contains("/* by others */") && text.contains("look-back, n 40"));
    fs::remove_file(desk.rules()).unwrap();
    window.press("esc u");
    assert!(!desk.rules().exists(), "not made again unasked");
    window.press("o");
    assert_eq!(fs::read_to_string(desk.rules()).unwrap(), theirs);
}

#[test]
fn rules_that_came_with_the_program_are_copied_and_never_written() {
    let desk = Desk::with_cases("rules-new", 40);
    let mut window = desk.window(RulesHome::New(desk.rules()));
    window.press("1");
    let (_, about) = window.asks();
    assert!(
        about.iter().any(|line| line.contains("a copy of them"))
            && about.iter().any(|line| line.contains("--rules")),
        "{about:?}"
    );
    assert!(!desk.rules().exists());
    window.press("y");
    assert_eq!(desk.read_rules().biases.len(), 1);
    window.press("esc u");
    let text = fs::read_to_string(desk.rules()).unwrap();
    assert_eq!(text, shipped::HOUSE_RULES.1, "the copy stays");

    // Another window, which does not know of it.
    let mut other = desk.window(RulesHome::New(desk.rules()));
    other.press("1 y");
    let (asks, _) = other.asks();
    assert!(asks.contains("is there"), "{asks}");
    assert_eq!(fs::read_to_string(desk.rules()).unwrap(), text);

    let mut nowhere = desk.window(RulesHome::Nowhere);
    nowhere.press("1");
    assert!(
        nowhere.page().refused.contains("--rules FILE"),
        "{}",
        nowhere.page().refused
    );
}

#[test]
fn a_bad_case_is_named_and_the_rest_counted() {
    let desk = Desk::with_cases("rules-bad", 21);
    fs::write(desk.0.join("cases/bad.ron"), "(format: 2, \u{1b}[2J").unwrap();
    fs::copy(
        desk.0.join("cases/case-000.ron"),
        desk.0.join("cases/twice.ron"),
    )
    .unwrap();
    let window = desk.looking_back();
    let found = window.found();
    assert_eq!((found.look_back.cases, found.files), (21, 23));
    assert_eq!(found.left_out.len(), 2);
    let lines = window.page().lines.join("\n");
    assert!(lines.starts_with("2 of 23 files left out:"), "{lines}");
    assert!(lines.contains("bad.ron: left out") && lines.contains("by its case_id"));
    assert!(!lines.contains('\u{1b}'));
}

#[test]
fn a_look_back_that_was_left_is_not_shown() {
    let desk = Desk::with_cases("rules-left", 1);
    let mut window = desk.looking_back();
    assert!(
        window
            .page()
            .proposals(window.0.document().rules())
            .is_empty()
    );
    window.press("esc B esc");
    window.look_back();
    assert!(window.0.overlays().is_empty());
    fs::remove_dir_all(desk.0.join("cases")).unwrap();
    window.press("B");
    window.look_back();
    let why = window.page().found.clone().unwrap().unwrap_err();
    assert!(why.contains("name a folder of case files"), "{why}");
}
