use crate::resolve::Basis;
use crate::{Ranking, Verdict, device_name, words};
use measurement::{Quantity, Reading, ReadingId};

impl Ranking {
    /// The one sentence above the list.
    pub fn headline(&self) -> String {
        let count = |verdict| {
            self.on_shelf()
                .filter(|one| one.judged.verdict == verdict)
                .count()
        };
        let all = self.on_shelf().count();
        if !self.excluded.is_empty() {
            let facts: Vec<&str> = self.excluded.iter().map(|one| one.fact.as_str()).collect();
            return format!("Excluded, whatever the size: {}.", facts.join("; "));
        }
        let (fits, borderline) = (count(Verdict::Fits), count(Verdict::Borderline));
        let best = self.on_shelf().next();
        if let Some(not_rated) = self.setting.not_rated() {
            let against = match count(Verdict::DoesNotFit) {
                0 => String::new(),
                1 => format!(" 1 of {all} sizes already does not fit."),
                some => format!(" {some} of {all} sizes already do not fit."),
            };
            return format!("Not rated. {}{against}", not_rated.sentences());
        }
        let says = match (fits, borderline, best) {
            (_, _, None) if self.candidates.is_empty() => "The catalogue is empty.".into(),
            (_, _, None) => "Nothing is in stock today.".into(),
            (0, 0, Some(nearest)) => {
                let why = nearest.judged.because.first().map_or("", String::as_str);
                format!(
                    "None of {all} sizes fits. Nearest: {}: {why}.",
                    device_name(&nearest.name())
                )
            }
            (0, _, Some(_)) => {
                format!(
                    "None of {all} sizes clearly fits; {borderline} {} borderline.",
                    is_or_are(borderline)
                )
            }
            _ => format!(
                "{fits} of {all} sizes {}, {borderline} {} borderline.",
                if fits == 1 { "fits" } else { "fit" },
                is_or_are(borderline)
            ),
        };
        let says = if self.against.is_empty() {
            says
        } else {
            format!("{says} Published guidance speaks against closing.")
        };
        match self.said_of_aside() {
            Some(aside) => format!("{says} {aside}"),
            None => says,
        }
    }

    /// How many sizes are not in stock today, which of them would be first, and
    /// what is said not to be there and is no size.
    fn said_of_aside(&self) -> Option<String> {
        let unknown = match self.aside_unknown.as_slice() {
            [] => String::new(),
            names => format!(
                " No size is called {}, which is said not to be there.",
                names.join(", ")
            ),
        };
        let count = self
            .candidates
            .iter()
            .filter(|one| !one.is_on_shelf)
            .count();
        let is_or_are = match count {
            0 => return Some(unknown.trim_start().to_owned()).filter(|it| !it.is_empty()),
            1 => "1 more is",
            _ => &format!("{count} more are"),
        };
        let first = self.candidates.first().filter(|one| !one.is_on_shelf);
        let first = first.map_or_else(String::new, |one| {
            format!("; {} among them would be first", device_name(&one.name()))
        });
        Some(format!("{is_or_are} not in stock today{first}.{unknown}"))
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
                one.quantity,
                first.value,
                first.id.0,
                second.value,
                second.id.0,
                dispute.separation,
            );
            Some((one.quantity, says))
        })
    }

    /// What is assumed because nobody read it, in words: like assumptions of
    /// several structures in one phrase.
    pub fn assumptions(&self) -> Vec<String> {
        let mut groups: Vec<(String, Vec<String>)> = Vec::new();
        for one in self.setting.resolved() {
            let (Basis::Assumed { .. }, Some(law)) = (&one.basis, one.law) else {
                continue;
            };
            let of = one.quantity;
            let address = of.address().replace('_', " ");
            let (structure, feature) = address.split_once('.').unwrap_or_default();
            let phrase = format!("{feature} {}", words::assumed(law, of.unit()));
            match groups.iter_mut().find(|(known, _)| *known == phrase) {
                Some((_, structures)) => structures.push(structure.to_owned()),
                None => groups.push((phrase, vec![structure.to_owned()])),
            }
        }
        groups
            .into_iter()
            .map(|(phrase, structures)| format!("{phrase} ({})", structures.join(", ")))
            .collect()
    }

    /// What was read, but not in the way the house prefers, in words.
    pub fn second_choices(&self) -> String {
        let quantities: Vec<&str> = self
            .setting
            .resolved()
            .iter()
            .filter(|one| {
                one.selection()
                    .is_some_and(|selection| selection.pattern > 0)
            })
            .map(|one| one.quantity.label())
            .collect();
        words::list(&quantities)
    }
}

/// The verb to a number of sizes.
const fn is_or_are(count: usize) -> &'static str {
    if count == 1 { "is" } else { "are" }
}

fn reading<'a>(readings: &'a [Reading], id: &ReadingId) -> Option<&'a Reading> {
    readings.iter().find(|reading| reading.id == *id)
}
