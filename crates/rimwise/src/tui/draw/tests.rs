//! The page as it is drawn, without a terminal.

mod any_keys;
mod any_size;
mod hostile_text;
mod pointer;
mod screens;
mod stage;
mod without_colour;
mod words;
