use crate::house_rules::Parameter;
use crate::{Case, Contradiction, Neighbour, ResolvedCase, answered, implausible, repeated, words};
use geometry::Face;
use measurement::{Quantity, Reading, Site, Valve, is_at_most, is_over, is_under};

/// Every contradiction of a case, in a fixed order.
pub fn contradictions(resolved: &ResolvedCase) -> Vec<Contradiction> {
    let mut found = Vec::new();
    found.extend(
        Valve::ALL
            .into_iter()
            .filter_map(|valve| rim_against_site(resolved, valve)),
    );
    found.extend(borders(resolved.case()));
    found.extend(
        Valve::ALL
            .into_iter()
            .filter_map(|valve| near_out_of_reach(resolved, valve)),
    );
    found.extend(AXES.iter().filter_map(|axes| axes_crossed(resolved, axes)));
    found.extend(
        Face::BOTH
            .into_iter()
            .filter_map(|face| opening_under_throat(resolved, face)),
    );
    found.extend(exclusions_denied(resolved));
    found.extend(implausible(resolved).iter().map(|one| Contradiction {
        id: "outside_wide_bounds".into(),
        says: one.says(),
        on: vec![one.quantity],
        is_impossible: false,
    }));
    found.extend(repeated(resolved.case()).iter().map(|one| Contradiction {
        id: "typed_twice".into(),
        says: one.says(),
        on: vec![one.quantity],
        is_impossible: false,
    }));
    found
}

/// The longer and the shorter axis of the defect and of each opening.
const AXES: [(&str, [Quantity; 2]); 3] = [
    (
        "defect",
        [Quantity::DEFECT_LONG_AXIS, Quantity::DEFECT_SHORT_AXIS],
    ),
    (
        "left opening",
        [
            Quantity::LEFT_OPENING_LONG_AXIS,
            Quantity::LEFT_OPENING_SHORT_AXIS,
        ],
    ),
    (
        "right opening",
        [
            Quantity::RIGHT_OPENING_LONG_AXIS,
            Quantity::RIGHT_OPENING_SHORT_AXIS,
        ],
    ),
];

/// A rim that the site does not allow.
fn rim_against_site(resolved: &ResolvedCase, valve: Valve) -> Option<Contradiction> {
    let rim = resolved.nominal(Quantity::rim(valve))?;
    let site = resolved.case().site;
    let arterial = matches!(valve, Valve::Aortic | Valve::Pulmonary);
    let most = resolved.parameter(Parameter::JuxtaArterialRim);
    if site == Site::OutletJuxtaArterial && arterial && is_over(rim, most) {
        return Some(Contradiction {
            id: "juxta_arterial_rim".into(),
            says: format!(
                "a juxta-arterial defect has no rim toward the {}, and {} were measured",
                valve.label(),
                words::mm(rim)
            ),
            on: vec![Quantity::rim(valve)],
            is_impossible: false,
        });
    }
    let least = resolved.parameter(Parameter::MuscularRim);
    (site.is_muscular() && is_at_most(rim, least)).then(|| Contradiction {
        id: "muscular_rim".into(),
        says: format!(
            "muscle surrounds a {} defect, and a rim of {} toward the {} was measured",
            site.label(),
            words::mm(rim),
            valve.label()
        ),
        on: vec![Quantity::rim(valve)],
        is_impossible: false,
    })
}

/// A neighbour said to be absent that the site's border is made of.
fn borders(case: &Case) -> Option<Contradiction> {
    let tricuspid = Neighbour::Valve(Valve::Tricuspid);
    (case.site.is_perimembranous() && case.is_absent(tricuspid)).then(|| Contradiction {
        id: "perimembranous_border".into(),
        says: "a perimembranous defect borders on the tricuspid valve, marked as out of reach"
            .into(),
        on: Vec::new(),
        is_impossible: false,
    })
}

/// A valve said to be out of reach with a rim so narrow that a disc reaches it. No
/// check asks of such a valve, so that every verdict rests on the answer.
fn near_out_of_reach(resolved: &ResolvedCase, valve: Valve) -> Option<Contradiction> {
    let case = resolved.case();
    if !case.is_absent(Neighbour::Valve(valve)) {
        return None;
    }
    // What is out of reach is not resolved: its readings are asked themselves.
    let of_rim = |one: &&Reading| one.quantity == Quantity::rim(valve) && one.set_aside.is_none();
    let rims = case.readings.iter().filter(of_rim).map(|one| one.value);
    let rim = rims.min_by(f64::total_cmp)?;
    let reach = resolved.parameter(Parameter::WithinReach);
    is_under(rim, reach).then(|| Contradiction {
        id: "near_out_of_reach".into(),
        says: format!(
            "the {} is marked as out of reach, and a rim of {} toward it was measured",
            valve.label(),
            words::mm(rim)
        ),
        on: Vec::new(),
        is_impossible: false,
    })
}

/// A shorter axis longer than the longer one.
fn axes_crossed(
    resolved: &ResolvedCase,
    (name, axes): &(&str, [Quantity; 2]),
) -> Option<Contradiction> {
    let [longer, shorter] = *axes;
    let (longer, shorter) = (resolved.nominal(longer)?, resolved.nominal(shorter)?);
    is_over(shorter, longer).then(|| Contradiction {
        id: "axes_crossed".into(),
        says: format!(
            "the shorter axis of the {name} ({}) is longer than its longer axis ({})",
            words::mm(shorter),
            words::mm(longer)
        ),
        on: axes.to_vec(),
        is_impossible: true,
    })
}

/// An opening smaller than the narrowest section.
fn opening_under_throat(resolved: &ResolvedCase, face: Face) -> Option<Contradiction> {
    let [(_, defect), left, right] = &AXES;
    let (name, opening) = match face {
        Face::Left => left,
        Face::Right => right,
    };
    let on = [opening[0], defect[0]];
    let (opening, throat) = (resolved.nominal(on[0])?, resolved.nominal(on[1])?);
    is_under(opening, throat).then(|| Contradiction {
        id: "opening_under_defect".into(),
        says: format!(
            "the {name} ({}) is narrower than the defect ({}), whose narrowest part is measured",
            words::mm(opening),
            words::mm(throat)
        ),
        on: on.to_vec(),
        is_impossible: true,
    })
}

/// An exclusion answered against what is known of the case.
fn exclusions_denied(resolved: &ResolvedCase) -> impl Iterator<Item = Contradiction> {
    let all = resolved.rules().exclusions.iter();
    all.filter_map(|exclusion| {
        let answered = answered(resolved, exclusion);
        answered.is_denied().then(|| Contradiction {
            id: "exclusion_denied".into(),
            says: format!(
                "\"{}\" is answered {}, and {}",
                exclusion.fact,
                answered.typed,
                answered.because.join(", ")
            ),
            on: Vec::new(),
            is_impossible: false,
        })
    })
}
