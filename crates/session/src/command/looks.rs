//! Commands on how the screen looks.

use super::{Command, look, open};
use crate::overlay::Overlay;
use crate::{Focus, Refused};

pub(super) const COMMANDS: &[Command] = &[
    Command {
        id: "present",
        name: "present",
        says: "the plan large and in few words, for a room, or back",
        focus: Focus::PLAN,
        keys: &["P"],
        in_footer: false,
        change: |session| {
            Ok(look(session, |view| {
                view.present(!view.looks.is_presented);
            }))
        },
    },
    Command {
        id: "next_colours",
        name: "next colours",
        says: "colours for a dark ground, a light ground, high contrast, none",
        focus: &[],
        keys: &["C"],
        in_footer: false,
        change: |session| {
            Ok(look(session, |view| {
                view.looks.palette = view.looks.palette.next();
            }))
        },
    },
    Command {
        id: "next_dots",
        name: "next pictures",
        says: "pictures as pixels (kitty, sixel), filled cells, braille, plain characters",
        focus: &[],
        keys: &["D"],
        in_footer: false,
        change: |session| {
            Ok(look(session, |view| {
                view.looks.pictures = view.looks.pictures.next(view.looks.palette);
            }))
        },
    },
    Command {
        id: "test_card",
        name: "test card",
        says: "every kind of picture, styles and widths on one screen, to judge the terminal",
        focus: &[],
        keys: &["K"],
        in_footer: false,
        change: |session| {
            if session.overlays().contains(&Overlay::TestCard) {
                return Err(Refused::TestCardShown);
            }
            Ok(open(session, Overlay::TestCard))
        },
    },
    Command {
        id: "free_mouse",
        name: "free the mouse",
        says: "leave the mouse to the terminal, to mark text (so does Shift), or take it again",
        focus: &[],
        keys: &["M"],
        in_footer: false,
        change: |session| Ok(look(session, |view| view.looks.mouse_is_free ^= true)),
    },
];
