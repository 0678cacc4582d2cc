//! The program in a terminal, played by keys.

mod ascii;
#[path = "../desk.rs"]
mod desk;
mod from_nothing;
mod hostile;
mod lessons;
mod pixels;
mod played;
mod recovery;
mod replies;
mod screen;
mod sheet;
