//! The commands of the command line, as the program answers them.

mod command_line;
mod criteria;
mod draw;
mod draw_png;
mod exceptions;
mod fit_map;
mod sheet;
mod shelf;
mod trials;
mod workup;
