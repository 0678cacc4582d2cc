//! The commands of the command line, as the program answers them.

mod call;
mod command_line;
mod criteria;
#[path = "../desk.rs"]
mod desk;
mod draw;
mod draw_png;
mod exceptions;
mod fit_map;
mod format_1;
mod growth;
mod look_back;
mod sheet;
mod shelf;
mod trials;
mod workup;
