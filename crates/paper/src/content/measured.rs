use super::{SheetRequest, sentence};
use crate::{Line, Mark, Section, TableRow, Topic};
use measurement::{Feature, Modality, Structure};
use sizing::break_even::BreakEvens;
use sizing::resolve::{Basis, Resolved};

/// How many readings are told that decide.
const DECIDING: usize = 3;

impl SheetRequest<'_> {
    /// The readings that count, those that decide first.
    pub(super) fn readings(&self, evens: Option<&BreakEvens>) -> Section {
        let mut counted: Vec<&Resolved> = self
            .setting()
            .resolved()
            .iter()
            .filter(|one| one.selection().is_some() && !one.quantity.is_for_workup_alone())
            .collect();
        let deciding = |one: &Resolved| {
            let mut readings = evens.into_iter().flat_map(|evens| &evens.readings);
            let place = readings.position(|it| it.quantity == one.quantity && it.can_change());
            let is_defect = one.quantity.info().structure == Structure::Defect
                || one.quantity.info().feature == Feature::Thickness;
            (!is_defect, place.unwrap_or(usize::MAX))
        };
        counted.sort_by_key(|one| deciding(one));
        let rows: Vec<TableRow> = counted.into_iter().map(reading).collect();
        if rows.is_empty() {
            let lines = vec![Line::plain("None.")];
            return Section::lines(Topic::Readings, "Readings that count", lines);
        }
        let heads = ["reading", "value ± SD", "how"];
        Section::table(Topic::Readings, "Readings that count", &heads, rows)
    }

    /// The readings at which the first size changes, the likeliest first.
    pub(super) fn decides(&self, evens: Option<&BreakEvens>) -> Section {
        let mut lines = Vec::new();
        if let (Some(evens), Some(first)) = (evens, self.shown.first()) {
            let deciding = evens.readings.iter().filter(|one| one.can_change());
            let says = deciding.take(DECIDING).map(|one| evens.says(one));
            let named = says.enumerate().map(|(index, says)| match index {
                0 => format!("{}: {says}.", self.device(first)),
                _ => format!("{}.", sentence(&says)),
            });
            lines = self.lines(named, 4);
        }
        if lines.is_empty() {
            lines.push(Line::plain("No single reading changes the verdict."));
        }
        Section::lines(Topic::Decides, "What decides", lines)
    }

    /// What was not measured, and what stands in its place.
    pub(super) fn not_measured(&self) -> Section {
        let asked = self.workup.section("not_measured");
        let asked = asked.iter().flat_map(|section| &section.lines);
        let asked = asked.map(|line| sentence(&format!("{}; {}.", line.label, line.note)));
        let missed: Vec<&str> = self.ranking.missed.iter().map(|one| one.label()).collect();
        let missed =
            (!missed.is_empty()).then(|| format!("Missing for a check: {}.", missed.join("; ")));
        let assumed = self.ranking.assumptions();
        let assumed = (!assumed.is_empty()).then(|| format!("Assumed: {}.", assumed.join("; ")));
        let unused: Vec<&str> = self
            .setting()
            .resolved()
            .iter()
            .filter(|one| matches!(&one.basis, Basis::Missing(unused) if !unused.is_empty()))
            .map(|one| one.quantity.label())
            .collect();
        let unused = (!unused.is_empty()).then(|| {
            format!(
                "Measured in no way that counts here: {}.",
                unused.join("; ")
            )
        });
        let says = missed.into_iter().chain(unused).chain(assumed).chain(asked);
        let mut lines = self.lines(says, 4);
        if lines.is_empty() {
            lines.push(Line::plain("Nothing that is asked for here is missing."));
        }
        Section::lines(Topic::NotMeasured, "Not measured", lines)
    }

    /// What the case excepts from the centre's rules; nothing where it excepts none.
    pub(super) fn exceptions(&self) -> Option<Section> {
        let says = self.setting().exceptions();
        let lines = self.lines(says.iter().map(|says| sentence(says)), 4);
        let heading = "Exceptions from your centre's rules";
        (!lines.is_empty()).then(|| Section::lines(Topic::Exceptions, heading, lines))
    }

    /// Other ways than closing by catheter, which are always said.
    pub(super) fn other_ways(&self) -> Section {
        let ways = self.workup.section("other_ways");
        let ways = ways.iter().flat_map(|section| &section.lines);
        let ways = ways
            .filter(|line| line.id.starts_with("way_"))
            .map(|line| line.label.as_str());
        let ways: Vec<&str> = ways.collect();
        let says = format!("{}.", sentence(&ways.join("; ")));
        let mut lines = self.lines([says], 4);
        for line in &mut lines {
            line.is_kept = true;
        }
        Section::lines(Topic::OtherWays, "Other ways, whatever fits", lines)
    }
}

/// A reading that counts, with how it was taken.
fn reading(one: &Resolved) -> TableRow {
    let mut how = Vec::new();
    let mut is_disputed = false;
    if let Some(selection) = one.selection() {
        let mut modalities: Vec<Modality> =
            selection.terms.iter().map(|term| term.modality).collect();
        modalities.sort_unstable();
        modalities.dedup();
        let modalities: Vec<&str> = modalities.into_iter().map(short).collect();
        how.push(modalities.join(" and "));
        how.extend(Some(selection.key.phase.label().to_owned()));
        if selection.pattern > 0 {
            how.push("not the preferred way".to_owned());
        }
        is_disputed = selection.fused.dispute.is_some();
    }
    if is_disputed {
        how.push("disputed".to_owned());
    }
    how.retain(|one| !one.is_empty());
    let mark = is_disputed.then_some(Mark::Warning);
    TableRow {
        cells: vec![
            Line::plain(one.quantity.label()),
            Line::plain(one.value_says().unwrap_or_default()),
            Line {
                mark,
                ..Line::plain(how.join(", "))
            },
        ],
        is_kept: false,
    }
}

/// The usual letters for a way of measuring.
const fn short(modality: Modality) -> &'static str {
    match modality {
        Modality::TransthoracicEcho => "TTE",
        Modality::TransoesophagealEcho => "TOE",
        Modality::ComputedTomography => "CT",
        Modality::MagneticResonance => "MR",
        Modality::ThreeDimensionalEcho
        | Modality::Angiography
        | Modality::Catheter
        | Modality::Bedside => modality.label(),
    }
}
