//! What is drawn of one size of one shape in the anatomy as read, in
//! millimetres: a screen today and a sheet tomorrow draw the same.
//!
//! A [`Scene`] is a list of figures. Each figure says what it is ([`Part`]) and
//! how it lies in the picture ([`Form`]), never how it looks: glyphs, colours and
//! line styles are a back end's, chosen by part alone.
//!
//! Every point and number comes from the engine's own geometry. x runs to the
//! right and y upward.

mod clip;
mod extent;
mod face_on;
mod figure;
pub mod layout;
mod part;
mod precision;
mod section;
pub mod svg;
mod view;
mod words;
mod worst_place;

#[cfg(test)]
mod sample;

pub use extent::{Extent, Point};
pub use face_on::face_on;
pub use figure::{Figure, Form, Importance, Label, Lean, Scene};
pub use part::Part;
pub use section::{nearest_valve, section};
pub use view::View;
#[cfg(test)]
mod eye {
    use super::*;
    #[test]
    fn eye() {
        use geometry::{Face, degrees};
        use measurement::Valve;
        let setting = sample::setting(&sample::outlet());
        for (name, size, turn) in [
            ("even", sample::size(5.0, 6.0, 0.0), 0.0),
            ("offset", sample::size(4.5, 5.0, 2.0), 0.0),
            ("turned", sample::size(4.5, 5.0, 2.0), degrees(90.0)),
            ("small", sample::size(4.5, 3.0, 0.0), 0.0),
        ] {
            for (what, view) in [
                ("aortic", View::Section(Valve::Aortic)),
                ("pulmonary", View::Section(Valve::Pulmonary)),
                ("tricuspid", View::Section(Valve::Tricuspid)),
                ("left", View::FaceOn(Face::Left)),
                ("right", View::FaceOn(Face::Right)),
            ] {
                println!("{name} {what} {:?}", view.missing(&setting));
                let scene = view.draw(&setting, &size, turn).unwrap();
                std::fs::write(format!("/tmp/eye-{name}-{what}.svg"), svg::svg(&scene)).unwrap();
            }
        }
    }
}
