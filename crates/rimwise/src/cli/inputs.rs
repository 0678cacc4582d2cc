//! The files a ranking is made from.

use super::args::{Against, Common};
use super::folders;
use crate::digest::digest;
use crate::otherwise::{CANCELLED, Otherwise};
use crate::tui::OtherTexts;
use ::workup::{Limits, Workup};
use anyhow::{Context, Result};
use files::{
    CaseFile, CatalogueFile, Diagnostic, FileError, GuidanceFile, HouseRulesFile, Source,
    parse_case, parse_catalogue, parse_guidance, parse_house_rules, planned_on, read_case,
    read_catalogue, read_guidance, read_house_rules, shipped, workup_input,
};
use paper::Provenance;
use session::{RulesHome, Session};
use sizing::engine::{Counter, Engine, Fast};
use sizing::trial::{CaseAfterTrials, Weighing, take_in};
use sizing::{
    Catalogue, Draws, HouseRules, Ranking, Setting, Shape, Size, Work, is_name_of, overlaid, rank,
};
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

/// Rules, catalogues and published limits, as far as each could be read.
#[derive(Clone)]
pub(super) struct Around {
    rules: Option<HouseRulesFile>,
    catalogues: Option<Vec<CatalogueFile>>,
    limits: Option<GuidanceFile>,
    /// Whether the last catalogue is the user's own.
    has_own: bool,
    faults: Vec<Diagnostic>,
}

impl Around {
    /// Reads and checks what the cases of a call are held against.
    pub(super) fn read(against: &Against) -> Result<Self> {
        let mut faults = Vec::new();
        let rules = keep(rules(against.rules.as_deref()), &mut faults)?;
        let catalogues: Vec<Option<CatalogueFile>> = if against.catalog.is_empty() {
            let (name, text) = shipped::SHAPES;
            let came = parse_catalogue(name, text).map_err(FileError::from);
            // Whatever stands there: what is no file is told rather than passed over.
            let own = own_shapes().filter(|path| path.exists());
            let own = own.map(|path| read_catalogue(&path));
            let each = std::iter::once(came).chain(own);
            each.map(|one| keep(one, &mut faults))
                .collect::<Result<_>>()?
        } else {
            let paths = against.catalog.iter();
            let read = paths.map(|path| keep(read_catalogue(path), &mut faults));
            read.collect::<Result<_>>()?
        };
        let limits = keep(limits(against.guidance.as_deref()), &mut faults)?;
        Ok(Self {
            rules,
            has_own: !against.catalog.is_empty() || catalogues.len() > 1,
            catalogues: catalogues.into_iter().collect(),
            limits,
            faults,
        })
    }

    /// Refuses them where one of them has a fault.
    pub(super) fn ensure_sound(&self) -> Result<()> {
        if self.faults.is_empty() {
            return Ok(());
        }
        Err(bad_files(&self.faults))
    }

    /// All of them, as long as none has a fault.
    pub(super) fn sound(self) -> Result<ValidInputs> {
        let rules = self.rules.map(HouseRulesFile::into_value);
        let limits = self.limits.map(GuidanceFile::into_value);
        match (rules, self.catalogues, limits) {
            (Some(rules), Some(catalogues), Some(limits)) if self.faults.is_empty() => {
                let catalogues = catalogues.into_iter().map(CatalogueFile::into_value);
                Ok(ValidInputs {
                    rules: Arc::new(rules),
                    catalogues: overlaid(catalogues.collect()),
                    limits,
                })
            }
            _ => Err(bad_files(&self.faults)),
        }
    }

    /// A case held against them; the faults of all files are told at once.
    pub(super) fn with(mut self, path: &Path) -> Result<Inputs> {
        let faults = &mut self.faults;
        let case = keep(case(path), faults)?;
        if let (Some(case), Some(rules)) = (&case, &self.rules) {
            faults.extend(case.faults_under(rules.value()));
        }
        if let (Some(case), Some(catalogues)) = (&case, &self.catalogues) {
            let known: Vec<Catalogue> = catalogues.iter().map(|one| one.value().clone()).collect();
            faults.extend(case.faults_among(&known));
        }
        match (case, self.catalogues, self.rules, self.limits) {
            (Some(case), Some(catalogues), Some(rules), Some(limits)) if faults.is_empty() => {
                Ok(Inputs {
                    case,
                    catalogues,
                    rules,
                    limits,
                    has_own: self.has_own,
                })
            }
            _ => Err(bad_files(faults)),
        }
    }
}

/// Rules, catalogues and published limits without a fault.
pub(super) struct ValidInputs {
    pub(super) rules: Arc<HouseRules>,
    pub(super) catalogues: Vec<Catalogue>,
    pub(super) limits: Limits,
}

/// A case, the catalogues and the rules, checked, with the digest of their bytes.
pub(super) struct Inputs {
    case: CaseFile,
    catalogues: Vec<CatalogueFile>,
    rules: HouseRulesFile,
    /// The published limits, which say what speaks against closing.
    limits: GuidanceFile,
    /// Whether the last catalogue is the user's own.
    has_own: bool,
}

impl Inputs {
    /// Reads and checks every file of a call; the faults of all are told at once.
    pub(super) fn read(common: &Common) -> Result<Self> {
        Around::read(&common.against)?.with(&common.case)
    }

    /// The case with the text it came from.
    pub(super) const fn case_file(&self) -> &CaseFile {
        &self.case
    }

    /// The digest of all that release criteria are written on.
    pub(super) fn planned_on(&self) -> String {
        let catalogues = self.catalogues.iter().map(CatalogueFile::source);
        let others = std::iter::once(self.rules.source()).chain(catalogues);
        planned_on(self.case.value(), others.chain([self.limits.source()]))
    }

    /// SHA-256 over the bytes of case, catalogues, rules and limits, in that order.
    fn sha256(&self) -> String {
        let catalogues = self.catalogues.iter().map(CatalogueFile::source);
        sha256(
            std::iter::once(self.case.source())
                .chain(catalogues)
                .chain([self.rules.source(), self.limits.source()]),
        )
    }

    /// The texts of all but the case, which the screen digests beside it.
    pub(super) fn others(&self) -> OtherTexts {
        let text = |source: &Source| source.original().into_owned();
        let mut catalogues: Vec<String> = self
            .catalogues
            .iter()
            .map(|one| text(one.source()))
            .collect();
        let own = self.has_own.then(|| catalogues.pop()).flatten();
        OtherTexts {
            catalogues,
            own: own.zip(self.catalogues.last().map(|own| own.value().clone())),
            rules: text(self.rules.source()),
            limits: text(self.limits.source()),
        }
    }

    /// Opens them for work on the screen, the rules kept where they are said to be; the
    /// user's own catalogue with its file.
    pub(super) fn session(mut self, home: RulesHome) -> (Session, Option<CatalogueFile>) {
        let own = self.has_own.then(|| self.catalogues.pop()).flatten();
        let sources = self
            .catalogues
            .iter()
            .map(|one| one.source().clone())
            .collect();
        let of_limits = self.limits.source().clone();
        let of_own = own.as_ref().map(|own| own.source().clone());
        let catalogues = self.catalogues.into_iter().map(CatalogueFile::into_value);
        let (case, rules) = (self.case.into_value(), self.rules.value().clone());
        let mut session = Session::open(case, catalogues.collect(), rules);
        if let Some(own) = &own {
            session = session.with_own_shapes(own.value().clone());
        }
        session = session.with_limits(self.limits.into_value());
        session = session.with_rules_file(Arc::new(self.rules), home);
        session = session.with_sources(sources, of_own, of_limits);
        (session, own)
    }

    /// Ranks them as a call asks.
    pub(super) fn rank(self, common: &Common) -> Result<(Ranking, Provenance)> {
        let ready = self.ready(common)?;
        Ok((ready.rank()?, ready.provenance))
    }

    /// Makes them ready once for all that a call asks.
    pub(super) fn ready(self, common: &Common) -> Result<Ready> {
        let provenance = Provenance {
            inputs_sha256: self.sha256(),
            seed: common.seed,
            draws: common.draws,
        };
        let mut setting = Arc::new(files::setting(
            Arc::new(self.case.into_value()),
            Arc::new(self.rules.into_value()),
            Some(self.limits.value()),
        ));
        let as_measured = Arc::clone(&setting);
        let catalogues = overlaid(
            self.catalogues
                .into_iter()
                .map(CatalogueFile::into_value)
                .collect(),
        );
        let threads = usize::from(common.threads);
        let never = AtomicBool::new(false);
        let work = Work {
            threads,
            cancel: &never,
        };
        let taken_in = taken_in(&setting, &catalogues, common, &work)?;
        let (draws, weighing) = match taken_in {
            Some(taken_in) => {
                setting = taken_in.setting;
                (taken_in.draws, Some(taken_in.weighing))
            }
            None if common.draws == 0 => (None, None),
            None => {
                let draws = Draws::new(&setting, common.draws, common.seed)
                    .map_err(|error| BadInput(format!("--draws: {error}")))?;
                (Some(draws), None)
            }
        };
        Ok(Ready {
            setting,
            as_measured,
            catalogues,
            counter: draws.map(|draws| Fast.prepare(draws)),
            weighing,
            provenance,
            limits: self.limits.into_value(),
            threads,
            never,
        })
    }
}

/// The case with its trials taken in; `None` where it has none, where they are left out,
/// or where there are no draws.
fn taken_in(
    setting: &Setting,
    catalogues: &[Catalogue],
    common: &Common,
    work: &Work,
) -> Result<Option<CaseAfterTrials>> {
    if common.before || common.draws == 0 || setting.case().procedure.trials.is_empty() {
        return Ok(None);
    }
    let taken_in = take_in(setting, catalogues, common.draws, common.seed, work);
    let says = |error| format!("--draws: {error}; --before leaves the trials out");
    let taken_in = taken_in.map_err(|error| BadInput(says(error)))?;
    Ok(Some(taken_in.context(CANCELLED)?))
}

/// A case under its rules with its draws.
pub(super) struct Ready {
    pub(super) setting: Arc<Setting>,
    /// The case as it was measured, before any trial.
    pub(super) as_measured: Arc<Setting>,
    pub(super) catalogues: Vec<Catalogue>,
    /// The draws; `None`: values as read alone.
    pub(super) counter: Option<Box<dyn Counter>>,
    /// What the trials made of the draws; `None`: there are none, or they are left out.
    pub(super) weighing: Option<Weighing>,
    pub(super) provenance: Provenance,
    /// The published limits against which the case is worked up.
    pub(super) limits: Limits,
    threads: usize,
    /// A call on the command line is ended from outside.
    never: AtomicBool,
}

impl Ready {
    /// How the work is done.
    pub(super) fn work(&self) -> Work<'_> {
        Work {
            threads: self.threads,
            cancel: &self.never,
        }
    }

    /// A size of the catalogues by its name, `shape/size`, with its place among all.
    pub(super) fn find(&self, name: &str) -> Result<(usize, &Shape, &Size)> {
        self.catalogues
            .iter()
            .flat_map(|catalogue| &catalogue.shapes)
            .flat_map(|shape| shape.sizes.iter().map(move |size| (shape, size)))
            .enumerate()
            .map(|(place, (shape, size))| (place, shape, size))
            .find(|(_, shape, size)| is_name_of(name, &format!("{}/{}", shape.id, size.label)))
            .ok_or_else(|| {
                BadInput(format!(
                    "no size `{}` in the catalogue",
                    files::visible(name)
                ))
                .into()
            })
    }

    /// The draws as trials weigh them; `None` where none does.
    pub(super) fn weighed(&self) -> Option<&dyn Counter> {
        self.weighing.as_ref().and(self.counter.as_deref())
    }

    /// What would have to be otherwise for a size of its ranking to fit, in paragraphs
    /// with their titles.
    pub(super) fn otherwise(&self, ranking: &Ranking) -> Result<Vec<(&'static str, String)>> {
        let otherwise = Otherwise {
            ranking,
            catalogues: &self.catalogues,
            draws: self.provenance.draws,
            seed: self.provenance.seed,
            weighed: self.weighed(),
        };
        otherwise.says(&self.work())
    }

    /// Its work-up.
    pub(super) fn work_up(&self, ranking: &Ranking) -> Result<Workup> {
        let Provenance { draws, seed, .. } = self.provenance;
        work_up(&ranking.setting, &self.limits, draws, seed)
    }

    /// Every size in order.
    pub(super) fn rank(&self) -> Result<Ranking> {
        rank(
            &self.setting,
            &self.catalogues,
            self.counter.as_deref(),
            &self.work(),
        )
        .context(CANCELLED)
    }
}

/// The work-up of a case against published limits.
pub(super) fn work_up(
    setting: &Setting,
    limits: &Limits,
    draws: usize,
    seed: u64,
) -> Result<Workup> {
    Workup::new(&workup_input(setting), limits, draws, seed)
        .map_err(|error| BadInput(format!("--draws: {error}")).into())
}

/// SHA-256 over the bytes of files, in hexadecimal digits.
pub(super) fn sha256<'a>(files: impl Iterator<Item = &'a Source>) -> String {
    digest(files.map(Source::original))
}

/// The case of a path, or the shipped scenario of that name where no such file is.
pub(super) fn case(path: &Path) -> Result<CaseFile, FileError> {
    let shipped = path
        .to_str()
        .filter(|_| !path.exists())
        .and_then(shipped::scenario);
    match shipped {
        Some((name, text)) => Ok(parse_case(name, text)?),
        None => read_case(path),
    }
}

pub(super) fn rules(path: Option<&Path>) -> Result<HouseRulesFile, FileError> {
    match path {
        Some(path) => read_house_rules(path),
        None => Ok(parse_house_rules(
            shipped::HOUSE_RULES.0,
            shipped::HOUSE_RULES.1,
        )?),
    }
}

/// The published limits of a path, or the shipped ones.
pub(super) fn limits(path: Option<&Path>) -> Result<GuidanceFile, FileError> {
    match path {
        Some(path) => read_guidance(path),
        None => Ok(parse_guidance(shipped::GUIDANCE.0, shipped::GUIDANCE.1)?),
    }
}

/// What was read, or `None` with its faults kept; a file that cannot be read at
/// all ends the call.
pub(super) fn keep<T>(
    read: Result<T, FileError>,
    faults: &mut Vec<Diagnostic>,
) -> Result<Option<T>> {
    match read {
        Ok(read) => Ok(Some(read)),
        Err(FileError::Faulty(mut more)) => {
            faults.append(&mut more);
            Ok(None)
        }
        Err(error) => Err(BadInput(error.to_string()).into()),
    }
}

/// All faults in one error, one to a line.
pub(super) fn bad_files(faults: &[Diagnostic]) -> anyhow::Error {
    let count = if faults.len() == 1 {
        "1 fault".into()
    } else {
        format!("{} faults", faults.len())
    };
    let mut text = format!("{count} in the files given");
    for fault in faults {
        let _ = write!(text, "\n{fault}");
    }
    BadInput(text).into()
}

/// Where a user keeps shapes of their own, laid over those that came with the
/// program.
pub(super) fn own_shapes() -> Option<PathBuf> {
    Some(folders::settings()?.join("shapes.ron"))
}

/// The name of the case opened when none is named.
pub(super) fn demonstration() -> PathBuf {
    PathBuf::from(shipped::DEMONSTRATION)
}
