use crate::{Corrected, Fused, Method, Modality, Phase, Reading, ReadingId, Side, fuse};
use std::collections::BTreeMap;

/// The side, phase and method that like readings share; only like readings are fused.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct GroupKey {
    /// The side of the wall.
    pub side: Side,
    /// The phase of the cycle.
    pub phase: Phase,
    /// The method of measuring.
    pub method: Method,
}

/// A pattern of a preference: the groups of like readings that it accepts.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct GroupPattern {
    /// The sides accepted; empty for any.
    pub sides: Vec<Side>,
    /// The phases accepted; empty for any.
    pub phases: Vec<Phase>,
    /// The methods accepted; empty for any.
    pub methods: Vec<Method>,
}

impl GroupPattern {
    /// Whether the pattern accepts a group with this key.
    pub fn accepts(&self, key: &GroupKey) -> bool {
        fn any_or_among<T: PartialEq>(accepted: &[T], one: &T) -> bool {
            accepted.is_empty() || accepted.contains(one)
        }
        any_or_among(&self.sides, &key.side)
            && any_or_among(&self.phases, &key.phase)
            && any_or_among(&self.methods, &key.method)
    }
}

/// The group that serves where one pattern accepts several unlike ones.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Choose {
    /// The group with the largest value.
    Largest,
    /// The group with the smallest value.
    Smallest,
}

/// The rule of your centre by which one group of readings serves for a quantity.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Preference {
    /// The patterns in order; the first that accepts any group serves.
    pub patterns: Vec<GroupPattern>,
    /// Which of the accepted groups serves.
    pub choose: Choose,
}

/// The part of one reading in a fused value.
#[derive(Clone, Debug, PartialEq)]
pub struct Term {
    /// The image on which it was measured.
    pub image: Option<String>,
    /// The modality of the reading.
    pub modality: Modality,
    /// The weight of the reading in the fusion.
    pub weight: f64,
    /// The standard deviation of the reading before the fusion.
    pub sd: f64,
}

/// The group of like readings that serves for a quantity.
#[derive(Clone, Debug, PartialEq)]
pub struct Selection {
    /// What the readings of the group share.
    pub key: GroupKey,
    /// The fused value.
    pub fused: Fused,
    /// The readings of the group.
    pub used: Vec<ReadingId>,
    /// The part of each reading, in the same order.
    pub terms: Vec<Term>,
    /// Index of the pattern that accepted the group: 0 the preferred one, more for a
    /// fallback.
    pub pattern: usize,
    /// The unlike groups that were left out, with their values.
    pub others: Vec<(GroupKey, Fused)>,
}

impl Selection {
    /// The share of each modality in the value, by which its scale error moves it.
    pub fn scale_shares(&self) -> Vec<(Modality, f64)> {
        let mut shares = BTreeMap::new();
        for term in &self.terms {
            *shares.entry(term.modality).or_insert(0.0) += term.weight;
        }
        shares.into_iter().collect()
    }
}

/// Groups the like readings of one quantity and fuses each group. Readings that were set
/// aside are left out.
pub fn like_groups(readings: &[Corrected], dispute_limit: f64) -> Vec<(GroupKey, Fused)> {
    groups(readings, dispute_limit)
        .into_iter()
        .map(|group| (group.key, group.fused))
        .collect()
}

/// Selects the group of readings that serves for a quantity by a preference. Readings
/// that were set aside are left out.
///
/// `None` where no pattern accepts any group; [`like_groups`] then says what was measured
/// and not used. Of groups with the same value the one with the first key serves.
pub fn select<'a>(
    readings: &'a [Corrected<'a>],
    preference: &Preference,
    dispute_limit: f64,
) -> Option<Selection> {
    let mut groups = groups(readings, dispute_limit);
    let (index, chosen) = preference
        .patterns
        .iter()
        .enumerate()
        .find_map(|(index, pattern)| Some((index, choose(&groups, pattern, preference.choose)?)))?;
    let group = groups.remove(chosen);
    Some(Selection {
        key: group.key,
        used: group
            .readings
            .iter()
            .map(|reading| reading.reading.id.clone())
            .collect(),
        terms: group
            .readings
            .iter()
            .zip(&group.fused.weights)
            .map(|(reading, &weight)| Term {
                image: reading.reading.image.clone(),
                modality: reading.reading.modality,
                weight,
                sd: reading.sd,
            })
            .collect(),
        fused: group.fused,
        pattern: index,
        others: groups
            .into_iter()
            .map(|group| (group.key, group.fused))
            .collect(),
    })
}

struct Group<'a> {
    key: GroupKey,
    readings: Vec<Corrected<'a>>,
    fused: Fused,
}

fn groups<'a>(readings: &[Corrected<'a>], dispute_limit: f64) -> Vec<Group<'a>> {
    let mut alike: BTreeMap<GroupKey, Vec<Corrected<'a>>> = BTreeMap::new();
    for corrected in readings
        .iter()
        .filter(|corrected| corrected.reading.set_aside.is_none())
    {
        let &Reading {
            side,
            phase,
            method,
            ..
        } = corrected.reading;
        alike
            .entry(GroupKey {
                side,
                phase,
                method,
            })
            .or_default()
            .push(*corrected);
    }
    alike
        .into_iter()
        .filter_map(|(key, readings)| {
            let fused = fuse(&readings, dispute_limit)?;
            Some(Group {
                key,
                readings,
                fused,
            })
        })
        .collect()
}

/// Index of the accepted group with the largest or smallest value.
fn choose(groups: &[Group], pattern: &GroupPattern, choose: Choose) -> Option<usize> {
    groups
        .iter()
        .enumerate()
        .filter(|(_, group)| pattern.accepts(&group.key))
        .min_by(|(_, a), (_, b)| {
            let rising = a.fused.value.total_cmp(&b.fused.value);
            match choose {
                Choose::Largest => rising.reverse(),
                Choose::Smallest => rising,
            }
        })
        .map(|(index, _)| index)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fusion::tests::reading;

    fn edge(name: &str, value: f64, phase: Phase) -> Reading {
        Reading {
            value,
            phase,
            ..reading(name)
        }
    }

    fn corrected(readings: &[Reading]) -> Vec<Corrected<'_>> {
        readings
            .iter()
            .map(|reading| Corrected {
                reading,
                value: reading.value,
                sd: 0.5,
            })
            .collect()
    }

    fn edge_to_edge_then_anything() -> Preference {
        Preference {
            patterns: vec![
                GroupPattern {
                    methods: vec![Method::EdgeToEdge],
                    ..GroupPattern::default()
                },
                GroupPattern::default(),
            ],
            choose: Choose::Largest,
        }
    }

    #[test]
    fn unlike_readings_are_never_fused() {
        let readings = [
            edge("a", 5.0, Phase::EndDiastole),
            edge("b", 4.0, Phase::EndSystole),
        ];
        let selection = select(&corrected(&readings), &edge_to_edge_then_anything(), 2.0).unwrap();
        assert_eq!(selection.used, [ReadingId("a".into())]);
        assert_eq!(selection.fused.value, 5.0);
        assert_eq!(selection.pattern, 0);
        assert_eq!(selection.others.len(), 1);
        assert_eq!(selection.others[0].0.phase, Phase::EndSystole);
    }

    #[test]
    fn the_smallest_where_the_rule_says_so() {
        let readings = [
            edge("a", 5.0, Phase::EndDiastole),
            edge("b", 4.0, Phase::EndSystole),
        ];
        let rule = Preference {
            choose: Choose::Smallest,
            ..edge_to_edge_then_anything()
        };
        let selection = select(&corrected(&readings), &rule, 2.0).unwrap();
        assert_eq!(selection.used, [ReadingId("b".into())]);
    }

    #[test]
    fn a_fallback_serves_and_says_so() {
        let readings = [Reading {
            method: Method::ColourJet,
            ..edge("a", 5.0, Phase::Systole)
        }];
        let rule = edge_to_edge_then_anything();
        assert_eq!(
            select(&corrected(&readings), &rule, 2.0).unwrap().pattern,
            1
        );
    }

    #[test]
    fn nothing_serves_where_no_pattern_accepts_and_the_groups_say_what_was_read() {
        let readings = [Reading {
            method: Method::ColourJet,
            ..edge("a", 5.0, Phase::Systole)
        }];
        let mut rule = edge_to_edge_then_anything();
        rule.patterns.truncate(1);
        let corrected = corrected(&readings);
        assert_eq!(select(&corrected, &rule, 2.0), None);
        assert_eq!(like_groups(&corrected, 2.0)[0].0.method, Method::ColourJet);
    }

    #[test]
    fn readings_set_aside_are_left_out() {
        let aside = Reading {
            set_aside: Some("oblique cut".into()),
            ..edge("a", 9.0, Phase::EndDiastole)
        };
        let readings = [aside, edge("b", 5.0, Phase::EndDiastole)];
        let selection = select(&corrected(&readings), &edge_to_edge_then_anything(), 2.0).unwrap();
        assert_eq!(selection.fused.value, 5.0);
        assert_eq!(selection.fused.dispute, None);
    }

    #[test]
    fn modalities_share_the_scale_by_weight() {
        let readings = [
            edge("a", 5.0, Phase::EndDiastole),
            Reading {
                modality: Modality::Angiography,
                ..edge("b", 5.0, Phase::EndDiastole)
            },
            edge("c", 5.0, Phase::EndDiastole),
            edge("d", 5.0, Phase::EndDiastole),
        ];
        let selection = select(&corrected(&readings), &edge_to_edge_then_anything(), 2.0).unwrap();
        assert_eq!(
            selection.scale_shares(),
            [
                (Modality::TransthoracicEcho, 0.75),
                (Modality::Angiography, 0.25)
            ]
        );
    }
}
