use measurement::{Answer, Finding, Joint, Modality, Quantity};
use sizing::resolve::{Basis, Resolved, estimates, scales};
use sizing::{Contradiction, Setting, contradictions, notes};
use workup::{Evidence, Ground, Input, KnownContradiction, Limits};

/// The input of the work-up from a case, under the same rules as the ranking.
pub fn workup_input(setting: &Setting) -> Input {
    let (case, rules) = (setting.case(), setting.rules());
    let bearing = |quantity: &Quantity| workup::bears(*quantity);
    let joint = estimates(setting.resolved(), rules)
        .into_iter()
        .filter(|estimate| bearing(&estimate.quantity))
        .collect();
    let mut findings = case.findings.clone();
    let rhythm = case.finding(Finding::NormalRhythm);
    if rhythm != Answer::Unknown {
        findings.insert(Finding::NormalRhythm, rhythm);
    }
    Input {
        title: case.title.clone(),
        site: case.site,
        evidence: setting.resolved().iter().filter_map(evidence).collect(),
        joint: Joint::new(joint, scales(rules)),
        findings,
        notes: notes(setting),
        contradictions: contradictions(setting).into_iter().map(found).collect(),
    }
}

fn found(one: Contradiction) -> KnownContradiction {
    KnownContradiction {
        label: one.label(),
        id: one.id,
        says: one.says,
    }
}

/// Draws by which the work-up looks for what does not add up beside a ranking: its
/// intervals to some per cent.
const DRAWS: usize = 256;

/// The contradictions in the work-up of a case. A verdict that rests on one of their
/// quantities is held at borderline.
pub(crate) fn contradictions_of_workup(input: &Input, limits: &Limits) -> Vec<Contradiction> {
    let found = workup::contradicted(input, limits, DRAWS, sizing::Draws::SEED);
    let found = found.unwrap_or_default().into_iter();
    let found = found.filter(|line| !line.on.is_empty());
    found
        .map(|line| Contradiction {
            id: line.id,
            says: format!("{}: {}", line.label, line.note),
            on: line.on,
            is_impossible: false,
        })
        .collect()
}

/// The evidence of one quantity; `None` where it has no value of its own or the work-up
/// does not use it.
fn evidence(resolved: &Resolved) -> Option<Evidence> {
    let law = resolved.law.filter(|_| workup::bears(resolved.quantity))?;
    let (ground, others, is_disputed) = match &resolved.basis {
        Basis::Read(selection) => {
            let mut modalities: Vec<Modality> =
                selection.terms.iter().map(|term| term.modality).collect();
            modalities.sort_unstable();
            modalities.dedup();
            (
                Ground::Read(selection.key, modalities),
                selection.others.clone(),
                selection.fused.dispute.is_some(),
            )
        }
        Basis::Assumed { source } => (Ground::Assumed(source.clone()), Vec::new(), false),
        Basis::Follows(_) | Basis::Nil | Basis::Absent | Basis::Missing(_) => return None,
    };
    Some(Evidence {
        quantity: resolved.quantity,
        value: law.nominal(),
        sd: law.sd(),
        ground,
        others,
        is_disputed,
    })
}
