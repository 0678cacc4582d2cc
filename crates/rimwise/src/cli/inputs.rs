//! The files a ranking is made from.

use super::args::Common;
use super::report::json::Provenance;
use anyhow::{Context, Result};
use files::shipped;
use sha2::{Digest, Sha256};
use sizing::engine::Plain;
use sizing::{Case, Catalogue, Draws, HouseRules, Ranking, Setting, Work, rank};
use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::AtomicBool;

/// A call or a file that cannot be used, with what would mend it.
#[derive(Debug)]
pub(super) struct BadInput(pub(super) String);

impl std::fmt::Display for BadInput {
    fn fmt(&self, formatter: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        formatter.write_str(&self.0)
    }
}

impl std::error::Error for BadInput {}

/// A case, the catalogues and the rules, checked, with the digest of their bytes.
pub(super) struct Inputs {
    case: Case,
    catalogues: Vec<Catalogue>,
    rules: HouseRules,
    sha256: String,
}

impl Inputs {
    /// Reads and checks every file of a call.
    pub(super) fn read(common: &Common) -> Result<Self> {
        let mut digest = Sha256::new();
        let mut take = |path: Option<&Path>, shipped: &str, name: &str| -> Result<(String, String)> {
            let (name, text) = match path {
                Some(path) => (path.display().to_string(), read(path)?),
                None => (name.to_owned(), shipped.to_owned()),
            };
            digest.update(text.as_bytes());
            Ok((name, text))
        };
        let case_file = match shipped_scenario(&common.case) {
            Some((name, text)) => take(None, text, name)?,
            None => take(Some(&common.case), "", "")?,
        };
        let catalogue_files: Vec<(String, String)> = if common.catalog.is_empty() {
            vec![take(None, shipped::SHAPES, "shipped shapes")?]
        } else {
            common.catalog.iter().map(|path| take(Some(path), "", "")).collect::<Result<_>>()?
        };
        let rule_file =
            take(common.rules.as_deref(), shipped::HOUSE_RULES, "shipped house rules")?;
        Self::check(&case_file, &catalogue_files, &rule_file, &hex(&digest.finalize()))
    }

    /// Checks every file; all faults of all files are told at once.
    fn check(
        (case_name, case_text): &(String, String),
        catalogue_files: &[(String, String)],
        (rule_name, rule_text): &(String, String),
        sha256: &str,
    ) -> Result<Self> {
        let mut faults = Vec::new();
        let rules = keep(files::read_house_rules(rule_name, rule_text), &mut faults);
        let catalogues: Vec<_> = catalogue_files
            .iter()
            .filter_map(|(name, text)| keep(files::read_catalogue(name, text), &mut faults))
            .collect();
        let case = keep(files::read_case(case_name, case_text), &mut faults);
        if let (Some(case), Some(rules)) = (&case, &rules) {
            faults.extend(files::check_case_against_rules(case, &rules.value));
        }
        match (case, rules) {
            (Some(case), Some(rules)) if faults.is_empty() => Ok(Self {
                case: case.value,
                catalogues: catalogues.into_iter().map(|catalogue| catalogue.value).collect(),
                rules: rules.value,
                sha256: sha256.to_owned(),
            }),
            _ => Err(bad_files(&faults)),
        }
    }

    /// Ranks them as a call asks.
    pub(super) fn rank(self, common: &Common) -> Result<(Ranking, Provenance)> {
        let setting = Arc::new(Setting::new(Arc::new(self.case), Arc::new(self.rules)));
        let draws = match common.draws {
            0 => None,
            draws => Some(
                Draws::new(&setting, draws, common.seed)
                    .map_err(|error| BadInput(format!("--draws: {error}")))?,
            ),
        };
        let never = AtomicBool::new(false);
        let work =
            Work { engine: &Plain, threads: usize::from(common.threads), cancel: &never };
        let ranking = rank(&setting, &self.catalogues, draws.as_ref(), &work)
            .context("ranking was cancelled")?;
        let provenance = Provenance {
            inputs_sha256: self.sha256,
            seed: common.seed,
            draws: common.draws,
        };
        Ok((ranking, provenance))
    }
}

/// A shipped scenario by its name, where no file of that name exists.
fn shipped_scenario(path: &Path) -> Option<(&'static str, &'static str)> {
    let name = path.to_str().filter(|_| !path.exists())?;
    shipped::SCENARIOS.iter().copied().find(|(shipped, _)| *shipped == name)
}

fn read(path: &Path) -> Result<String> {
    files::read_text(path).map_err(|error| BadInput(error.to_string()).into())
}

fn keep<T>(checked: Result<T, Vec<files::Diagnostic>>, faults: &mut Vec<files::Diagnostic>) -> Option<T> {
    checked.map_err(|mut more| faults.append(&mut more)).ok()
}

/// All faults in one error, one to a line.
pub(super) fn bad_files(faults: &[files::Diagnostic]) -> anyhow::Error {
    let mut text = format!("{} in the files given", counted(faults.len()));
    for fault in faults {
        let _ = write!(text, "\n{fault}");
    }
    BadInput(text).into()
}

fn counted(faults: usize) -> String {
    if faults == 1 { "1 fault".into() } else { format!("{faults} faults") }
}

fn hex(bytes: &[u8]) -> String {
    bytes.iter().fold(String::new(), |mut text, byte| {
        let _ = write!(text, "{byte:02x}");
        text
    })
}

/// The name of the case opened when none is named.
pub(super) fn demonstration() -> PathBuf {
    PathBuf::from(shipped::DEMONSTRATION)
}
