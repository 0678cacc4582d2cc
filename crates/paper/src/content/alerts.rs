use super::{SheetRequest, sentence};
use crate::layout::{self, ALERT};
use crate::{Line, Mark, Section, Topic};
use workup::Indication;

/// How many alerts stand above the figure.
const MOST: usize = 8;

impl SheetRequest<'_> {
    /// What speaks against going on, and what keeps the list from being trusted, the
    /// gravest first.
    pub(super) fn alerts(&self) -> Section {
        let ranking = self.ranking;
        let mut alerts: Vec<(Mark, String)> = Vec::new();
        for one in &ranking.excluded {
            alerts.push((Mark::Beyond, format!("Excluded. {}.", sentence(&one.fact))));
        }
        for one in &ranking.against {
            let says = format!("Published guidance against closing is met: {}.", one.says);
            alerts.push((Mark::Beyond, says));
        }
        let banner = &self.workup.banner;
        if ranking.against.is_empty() && banner.indication != Indication::Met {
            alerts.push((Mark::Warning, banner.says.clone()));
        }
        for one in &ranking.contradictions {
            let says = format!("Does not add up: {}.", one.says);
            alerts.push((Mark::Warning, says));
        }
        for (_, says) in ranking.disputes() {
            alerts.push((Mark::Warning, format!("In dispute: {says}.")));
        }
        let unanswered: Vec<&str> = ranking
            .unanswered
            .iter()
            .map(|it| it.fact.as_str())
            .collect();
        if !unanswered.is_empty() {
            let says = format!("Not answered: {}.", unanswered.join("; "));
            alerts.push((Mark::NotKnown, says));
        }
        for (title, says) in &self.otherwise {
            alerts.push((Mark::NotKnown, format!("{title}{says}")));
        }
        if let Some(since) = &self.since {
            alerts.insert(0, (Mark::Warning, since.clone()));
        }
        let width = layout::content_width(self.paper);
        let lines = alerts
            .into_iter()
            .map(|(mark, says)| Line::marked(mark, self.clamped(&says, ALERT, width, 2)).kept());
        let mut section = Section::lines(Topic::Alerts, "", lines.take(MOST).collect());
        section.left_out = 0;
        section
    }
}
