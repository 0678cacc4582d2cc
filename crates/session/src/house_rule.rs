use files::Word;
use measurement::Site;
use sizing::HouseRules;
use sizing::house_rules::{Band, Condition, Parameter};

/// One rule of the house, as it is read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct HouseRule {
    /// What kind of rule it is.
    pub kind: &'static str,
    /// What it is about.
    pub about: String,
    /// What it says.
    pub says: String,
    /// Where it comes from.
    pub source: String,
}

/// Every rule of the house that can count for a site, kind by kind.
pub(crate) fn house_rules(rules: &HouseRules, site: Site) -> Vec<HouseRule> {
    let is_for = |sites: &[Site]| sites.is_empty() || sites.contains(&site);
    let mut all = Vec::new();
    let mut add = |kind, about: String, says: String, source: &str| {
        all.push(HouseRule {
            kind,
            about,
            says,
            source: source.to_owned(),
        });
    };
    for limit in rules.limits.iter().filter(|limit| is_for(&limit.sites)) {
        let of: Vec<&str> = limit.of.iter().map(|of| of.label()).collect();
        let about = format!("{} {}", limit.check, of.join(", ")).replace('_', " ");
        let when: Vec<String> = limit.when.iter().copied().map(when_says).collect();
        let when = if when.is_empty() {
            String::new()
        } else {
            format!(" where {}", when.join(" and "))
        };
        let bands = [("stop", limit.stop), ("caution", limit.caution)];
        let bands: Vec<String> = bands
            .into_iter()
            .filter_map(|(word, band)| Some(format!("{word} {}", band_says(band)?)))
            .collect();
        let says = format!("{}{when}", bands.join("; "));
        add("Limits", about.trim().to_owned(), says, &limit.source);
    }
    for (info, row) in Parameter::ALL.iter().zip(&rules.parameters) {
        let says = format!("{} {}", row.value, info.unit);
        add("Parameters", info.label.to_owned(), says, &row.source);
    }
    for row in &rules.defaults {
        let unit = row.of.unit().symbol();
        let says = format!("{} ± {} {unit}", row.value, row.sd);
        add(
            "Assumed where nobody read it",
            row.of.label().to_owned(),
            says,
            &row.source,
        );
    }
    for row in &rules.scales {
        let says = format!("{} % scale error of all its lengths", 100.0 * row.sd);
        add(
            "Scale errors",
            row.modality.word().replace('_', " "),
            says,
            &row.source,
        );
    }
    for row in rules.exclusions_for(site) {
        add(
            "Exclusions",
            row.fact.clone(),
            "stops every shape".to_owned(),
            &row.source,
        );
    }
    for row in rules.notes.iter().filter(|row| is_for(&row.sites)) {
        add("Notes", row.says.clone(), String::new(), &row.source);
    }
    all
}

/// A condition in words: what is not known counts as if it were so.
fn when_says(when: Condition) -> String {
    match when {
        Condition::Prolapse => "a cusp prolapses or may".to_owned(),
        Condition::WeightUnder(weight) => format!("the weight is under {weight} kg or not read"),
        Condition::AgeUnder(age) => format!("the age is under {age} years or not read"),
        Condition::StiffDiscs => "the discs are stiff".to_owned(),
        Condition::ChordaeOnEdge => "chordae insert on the edge".to_owned(),
        Condition::ChordaeUnknown => "nobody knows whether chordae insert on the edge".to_owned(),
    }
}

fn band_says(band: Band) -> Option<String> {
    match (band.low, band.high) {
        (Some(low), Some(high)) => Some(format!("under {low} or over {high}")),
        (Some(low), None) => Some(format!("under {low}")),
        (None, Some(high)) => Some(format!("over {high}")),
        (None, None) => None,
    }
}

#[cfg(test)]
mod tests {
    use crate::fixture;

    #[test]
    fn every_rule_names_its_source() {
        let session = fixture::infant();
        let rules = session.house_rules();
        assert!(rules.len() > 40);
        for rule in &rules {
            assert!(
                !rule.about.is_empty() && !rule.source.is_empty(),
                "{rule:?}"
            );
        }
    }
}
