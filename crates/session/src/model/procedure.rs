use super::Model;
use crate::page::Page;
use files::Source;
use measurement::Modality;
use std::sync::Arc;
use std::time::Duration;

/// What release criteria are written on, beside the case and the rules: every catalogue but
/// the user's own, the user's own, the guidance.
#[derive(Clone, Debug, Default)]
pub(crate) struct PlannedOn {
    pub(crate) catalogues: Arc<[Source]>,
    pub(crate) own: Option<Arc<Source>>,
    pub(crate) guidance: Option<Arc<Source>>,
    /// The digest now, where criteria are written.
    pub(crate) now: Option<String>,
}

/// Seconds of a minute.
const SECONDS_PER_MINUTE: f64 = 60.0;

/// What there is to read of a procedure.
impl Model {
    /// The digest of all that criteria are written on, as it is now.
    pub(crate) fn planned_on(&self) -> String {
        let PlannedOn {
            catalogues,
            own,
            guidance,
            ..
        } = &self.planned;
        let rules = self.document.rules_file.iter().map(|file| file.source());
        let catalogues = catalogues.iter().chain(own.as_deref());
        let sources = rules.chain(catalogues).chain(guidance.as_deref());
        files::planned_on(&self.document.case, sources)
    }

    /// Whether readings, answers, exceptions, rules, catalogue or guidance changed since
    /// the criteria were written.
    pub fn changed_since_planned(&self) -> bool {
        let planned = &self.document.case.procedure.planned_on;
        planned.is_some() && self.planned.now.is_some() && *planned != self.planned.now
    }

    /// The program's own minutes, by which the minute since puncture is told.
    pub(crate) const fn clock(&self) -> f64 {
        self.clock.as_secs_f64() / SECONDS_PER_MINUTE
    }

    /// The whole minutes since puncture; `None` until somebody said when that was.
    pub fn minute(&self) -> Option<f64> {
        let since = self.view.puncture?;
        Some((self.clock() - since).floor().max(0.0))
    }

    /// How long until the minute since puncture is another, where it is shown; `None`:
    /// nothing waits for it.
    pub fn to_next_minute(&self) -> Option<Duration> {
        if self.view.focus.page() != Page::Trials {
            return None;
        }
        let minutes = self.clock() - self.view.puncture?;
        let rest = 1.0 - minutes.rem_euclid(1.0);
        Some(Duration::from_secs_f64(rest * SECONDS_PER_MINUTE))
    }

    /// By what the open device is looked at: as it was said, or by what something was
    /// seen last in it.
    pub fn observer(&self) -> Option<Modality> {
        let open = self.document.case.procedure.open();
        let last = || open?.seen.iter().rev().find_map(|one| one.by);
        self.view.observer.or_else(last)
    }
}
