//! What 0.1 left in a user's own folders, and what is asked since.
//!
//! `old/settings` was written by the program of 0.1: a case begun in no file and killed
//! after four answers, and its list of recent cases.

use files::{Disk, Recent, Recovery, Unfiled, parse_case};
use measurement::{Quantity, Valve};
use outside::folder::Folder;
use outside::sample::{shipped_catalogue, shipped_limits, shipped_rules};
use sizing::engine::{Engine, Fast};
use sizing::{Answer, Draws, Fact, Neighbour, Verdict, Work, answered, rank};
use std::fs;
use std::path::Path;
use std::sync::Arc;
use std::sync::atomic::AtomicBool;

#[test]
fn a_case_of_0_1_in_no_file_is_found_and_restored() {
    let folder = Folder::new("unfiled");
    let journal = include_bytes!("old/settings/unfiled.journal");
    let name = "case-01796072099585573915-1945.ron";
    fs::write(folder.join(format!(".{name}.rimwise-journal")), journal).unwrap();
    let unfiled = Unfiled::new(Disk::default(), folder.to_path_buf());
    assert_eq!(unfiled.names(), [folder.join(name)]);
    let found = Recovery::find(&Disk::default(), &folder.join(name), None);
    let found = found.unwrap().unwrap();
    assert_eq!((found.changes.len(), found.torn), (5, 0));
    let restored = parse_case("case.ron", &found.text).unwrap();
    let case = restored.value();
    assert_eq!(case.title, "in no file");
    let read = |of: Quantity| case.readings.iter().find(|one| one.quantity == of);
    let value = |of: Quantity| read(of).map(|one| one.value);
    assert_eq!(value(Quantity::DEFECT_LONG_AXIS), Some(6.8));
    assert_eq!(value(Quantity::DEFECT_SHORT_AXIS), Some(5.9));
    assert_eq!(value(Quantity::WALL_THICKNESS), Some(5.2));
    assert!(case.absent.contains(&Neighbour::Valve(Valve::Aortic)));
    assert!(case.exclusions.is_empty());
}

#[test]
fn a_list_of_recent_cases_of_0_1_is_read_and_goes_on() {
    let folder = Folder::new("recent");
    let path = folder.join("recent.ron");
    fs::write(&path, include_str!("old/settings/recent.ron")).unwrap();
    let recent = Recent::new(Disk::default(), path);
    assert_eq!(recent.cases(), [Path::new("/home/a/slit.ron")]);
    recent.note(Path::new("/home/a/two.ron")).unwrap();
    let both = ["/home/a/two.ron", "/home/a/slit.ron"].map(Path::new);
    assert_eq!(recent.cases(), both);
}

/// The facts that 0.1 did not ask of a case; its rhythm it had as a finding.
const ASKED_SINCE: [Fact; 5] = [
    Fact::Round,
    Fact::PulmonaryRegurgitation,
    Fact::Pouch,
    Fact::Holes,
    Fact::BandInTheWay,
];

/// What 0.1 did not ask was answered by nobody: it is open in every old case, and an
/// open exclusion holds every size.
#[test]
fn what_is_asked_since_counts_as_unanswered() {
    let folder = Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/files/old"));
    let now = Arc::new(shipped_rules());
    let (mut open, mut cases) = (0, 0);
    for entry in fs::read_dir(folder.join("scenarios")).unwrap() {
        let path = entry.unwrap().path();
        let name = path.file_stem().unwrap().to_string_lossy().into_owned();
        let text = fs::read_to_string(&path).unwrap();
        let case = Arc::new(parse_case(&name, &text).unwrap().into_value());
        for fact in ASKED_SINCE {
            assert!(case.facts.get(fact).is_unknown(), "{name}: {fact:?}");
        }
        let setting = Arc::new(files::setting(case, now.clone(), Some(&shipped_limits())));
        let asked = now.exclusions_for(setting.case().site);
        let mut is_open = false;
        for exclusion in asked.filter(|one| !text.contains(&one.id)) {
            let answer = answered(&setting, exclusion);
            assert_eq!(answer.typed, Answer::Unknown, "{name}: {}", exclusion.id);
            is_open |= answer.answer == Answer::Unknown;
        }
        cases += 1;
        if !is_open {
            continue;
        }
        open += 1;
        let counter = Fast.prepare(Draws::new(&setting, 256, 1).unwrap());
        let never = AtomicBool::new(false);
        let work = Work {
            threads: 1,
            cancel: &never,
        };
        let list = rank(&setting, &[shipped_catalogue()], Some(&*counter), &work).unwrap();
        for one in &list.candidates {
            assert_ne!(one.judged.verdict, Verdict::Fits, "{name}: {}", one.name());
        }
    }
    assert_eq!(cases, 16);
    assert!(open > 0, "nothing was asked since");
}
