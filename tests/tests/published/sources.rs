//! Where figures come from: a source names the paper, or says that it was not found.

#![expect(clippy::expect_used, reason = "what fails here fails a test")]

use measurement::Site;
use outside::sample::shipped_rules;
use std::fs;
use std::path::{Path, PathBuf};

/// Hosts whose pages retell a paper: cards, slides, calculators, clinics, resellers,
/// and copies of a journal's or a society's text.
const RETELLERS: [&str; 20] = [
    "acc.org",
    "bilalmd.com",
    "brainscape.com",
    "childheartassociates.com",
    "coheadquarters.com",
    "dhzb.de",
    "drlex.ai",
    "echocardiographer.org",
    "guidelinecentral.com",
    "kiraspecialist.com",
    "medicalalgorithms.com",
    "northwestern.edu",
    "onlinejacc.org",
    "onlycalculators.com",
    "rbht.nhs.uk",
    "scilit.net",
    "scribd.com",
    "slideplayer.com",
    "slideserve.com",
    "thoracickey.com",
];

/// Every file below a folder that ends in one of these.
fn files_below(folder: &Path, endings: &[&str], found: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).expect("a folder") {
        let path = entry.expect("an entry").path();
        if path.is_dir() {
            files_below(&path, endings, found);
        } else if endings
            .iter()
            .any(|ending| path.extension().is_some_and(|it| it == *ending))
        {
            found.push(path);
        }
    }
}

#[test]
fn no_shipped_source_is_a_page_that_retells_a_paper() {
    let project = Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/.."));
    let mut files = Vec::new();
    for folder in ["catalogs", "scenarios", "crates", "tests"] {
        files_below(&project.join(folder), &["ron", "rs"], &mut files);
    }
    // All but the list itself, and what shipped before.
    files.retain(|file| {
        let was_shipped = file.components().any(|one| one.as_os_str() == "old");
        !file.ends_with("published/sources.rs") && !was_shipped
    });
    assert!(files.len() > 100, "{} files", files.len());
    let mut retold = Vec::new();
    for file in files {
        let text = fs::read_to_string(&file).expect("a text");
        for (line, text) in text.lines().enumerate() {
            if let Some(host) = RETELLERS.iter().find(|host| text.contains(**host)) {
                retold.push(format!("{}:{} {host}", file.display(), line + 1));
            }
        }
    }
    assert_eq!(
        retold, [""; 0],
        "cite the paper, or say that it was not found"
    );
}

/// The page on which the rules for perimembranous defects were read names no body
/// and no author.
#[test]
fn nothing_is_called_a_consensus_that_was_not_read() {
    for (name, text) in [files::shipped::HOUSE_RULES, files::shipped::GUIDANCE] {
        assert!(!text.contains("consensus"), "{name}");
    }
}

/// The cohort in which the ratio was a risk had perimembranous defects alone.
#[test]
fn the_waist_ratio_is_held_against_perimembranous_defects_alone() {
    let rules = shipped_rules();
    let row = rules.limits.iter().find(|row| row.check == "waist_ratio");
    let sites = &row.expect("a row").sites;
    assert_eq!(sites.len(), 3);
    assert!(sites.iter().copied().all(Site::is_perimembranous));
}

/// An exclusion is asked at every site it was asked at before its source was looked
/// up; where that goes beyond the source it says so.
#[test]
fn no_exclusion_loses_a_site_to_its_source() {
    let rules = shipped_rules();
    let asked = |id: &str| {
        let row = rules.exclusions.iter().find(|row| row.id == id);
        row.expect("an exclusion")
    };
    let cusp = asked("cusp_in_defect");
    assert_eq!(cusp.sites.len(), 5);
    assert!(cusp.source.contains("assumption"), "{}", cusp.source);
    for id in ["prolapse_with_regurgitation", "aortic_regurgitation"] {
        assert_eq!(asked(id).sites, [], "{id}");
    }
}
