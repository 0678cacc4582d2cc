//! Commands on what is drawn.

use super::{Change, Command, lay, look};
use crate::overlay::Overlay;
use crate::{DisplayOptions, Edit, Focus, Refused, Session};
use measurement::Valve;
use sizing::Neighbour;

pub(super) const COMMANDS: &[Command] = &[
    Command {
        id: "face",
        name: "other face",
        says: "draw the other face of the wall",
        focus: Focus::PLAN,
        keys: &["f"],
        in_footer: false,
        change: |session| Ok(face(session)),
    },
    Command {
        id: "valve",
        name: "next valve",
        says: "draw the section through the next valve",
        focus: Focus::PLAN,
        keys: &["v"],
        in_footer: false,
        change: valve,
    },
    Command {
        id: "mirror_section",
        name: "mirror section",
        says: "the section with the other ventricle on its left",
        focus: Focus::PLAN,
        keys: &["V"],
        in_footer: false,
        change: |session| {
            Ok(look(session, |view| {
                view.looks.section_left = view.looks.section_left.other();
            }))
        },
    },
    Command {
        id: "full_drawing",
        name: "full drawing",
        says: "the drawing on the whole screen, or back",
        focus: Focus::PLAN,
        keys: &["z"],
        in_footer: false,
        change: |session| Ok(full_drawing(session)),
    },
];

fn face(session: &Session) -> Change {
    let shown = session.document().shown();
    Change::Edit(Edit::Shown(DisplayOptions {
        face: shown.face.opposite(),
        ..shown.clone()
    }))
}

fn valve(session: &Session) -> Result<Change, Refused> {
    let shown = session.document().shown();
    let case = session.document().case();
    let from = Valve::ALL.iter().cycle().skip(shown.valve.index() + 1);
    let valve = from
        .take(Valve::ALL.len() - 1)
        .find(|&&valve| !case.is_absent(Neighbour::Valve(valve)))
        .ok_or(Refused::NoOtherValve)?;
    Ok(Change::Edit(Edit::Shown(DisplayOptions {
        valve: *valve,
        ..shown.clone()
    })))
}

fn full_drawing(session: &Session) -> Change {
    lay(session, |overlays| {
        let layers = overlays.len();
        overlays.retain(|overlay| *overlay != Overlay::Drawing);
        if overlays.len() == layers {
            overlays.push(Overlay::Drawing);
        }
    })
}
