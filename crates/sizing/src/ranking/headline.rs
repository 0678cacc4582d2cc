use crate::resolve::Basis;
use crate::{Ranking, Verdict, words};
use measurement::{Quantity, Reading, ReadingId};

impl Ranking {
    /// The one sentence above the list.
    pub fn headline(&self) -> String {
        let count = |verdict| {
            self.candidates.iter().filter(|one| one.judged.verdict == verdict).count()
        };
        let all = self.candidates.len();
        if !self.excluded.is_empty() {
            let facts: Vec<&str> = self.excluded.iter().map(|one| one.fact.as_str()).collect();
            return format!("Excluded before any geometry: {}.", facts.join("; "));
        }
        let (fits, tight) = (count(Verdict::Fits), count(Verdict::Tight));
        let best = self.candidates.first();
        match (fits, tight, best) {
            (_, _, None) => "The catalogue is empty.".into(),
            (0, 0, Some(nearest)) => {
                let why = nearest.judged.because.first().map_or("", String::as_str);
                format!("Nothing of {all} sizes fits on paper. Nearest: {}: {why}.", nearest.name())
            }
            (0, _, Some(_)) => format!("Nothing of {all} sizes fits without doubt; {tight} are tight on paper."),
            _ => format!("{fits} of {all} sizes fit on paper, {tight} are tight."),
        }
    }

    /// The quantities in dispute, each with the two readings furthest apart.
    pub fn disputes(&self) -> impl Iterator<Item = (Quantity, String)> + '_ {
        self.setting.disputed().filter_map(|one| {
            let dispute = one.selection()?.fused.dispute.as_ref()?;
            let first = reading(&self.setting.case().readings, &dispute.first)?;
            let second = reading(&self.setting.case().readings, &dispute.second)?;
            let unit = one.quantity.unit().symbol();
            let says = format!(
                "{}: {} {unit} ({}) against {} {unit} ({}), {:.1} combined SDs apart",
                one.quantity, first.value, first.id.0, second.value, second.id.0, dispute.separation,
            );
            Some((one.quantity, says))
        })
    }

    /// What is assumed because nobody read it, in words.
    pub fn assumptions(&self) -> Vec<String> {
        self.setting
            .resolved()
            .iter()
            .filter_map(|one| {
                let (Basis::Assumed { .. }, Some(law)) = (&one.basis, one.law) else { return None };
                let unit = one.quantity.unit().symbol();
                Some(format!("{} {:.0} ± {:.1} {unit}", one.quantity, law.nominal(), law.sd()))
            })
            .collect()
    }

    /// What was read, but not in the way the house prefers, in words.
    pub fn second_choices(&self) -> String {
        let quantities: Vec<&str> = self
            .setting
            .resolved()
            .iter()
            .filter(|one| one.selection().is_some_and(|selection| selection.place > 0))
            .map(|one| one.quantity.label())
            .collect();
        words::list(&quantities)
    }
}

fn reading<'a>(readings: &'a [Reading], id: &ReadingId) -> Option<&'a Reading> {
    readings.iter().find(|reading| reading.id == *id)
}
