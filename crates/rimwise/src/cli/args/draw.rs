//! What `rimwise draw` is asked.

use super::Common;
use clap::{Args, ValueEnum};
use std::path::PathBuf;

#[derive(Debug, Args)]
pub(in crate::cli) struct DrawArguments {
    #[command(flatten)]
    pub(in crate::cli) common: Common,
    /// One to four sizes, each as SHAPE/SIZE or as lists name it: "narrow 5 x 2"
    #[arg(value_name = "SHAPE/SIZE", required = true, num_args = 1..=4)]
    pub(in crate::cli) sizes: Vec<String>,
    /// What is written; none: by the ending of --out, else SVG
    #[arg(long, value_enum)]
    pub(in crate::cli) format: Option<DrawFormat>,
    /// What is shown
    #[arg(long, value_enum, default_value_t = DrawView::Both)]
    pub(in crate::cli) view: DrawView,
    /// Which ventricle lies on the left of a section
    #[arg(long, value_enum, default_value_t = DrawLeft::Right)]
    pub(in crate::cli) left: DrawLeft,
    /// Width of the page in mm
    #[arg(long, value_name = "MM", default_value_t = 297, value_parser = clap::value_parser!(u16).range(120..=1200))]
    pub(in crate::cli) width: u16,
    /// Width of a PNG in pixels; none: eight to a millimetre of the page
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u32).range(1..))]
    pub(in crate::cli) pixels: Option<u32>,
    /// The ground it is drawn on
    #[arg(long, value_enum, default_value_t = DrawGround::Light)]
    pub(in crate::cli) ground: DrawGround,
    /// The file to be written; none: standard output
    #[arg(long, value_name = "FILE")]
    pub(in crate::cli) out: Option<PathBuf>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(in crate::cli) enum DrawFormat {
    /// A picture of lines and words
    Svg,
    /// A picture of pixels
    Png,
    /// For programs: defect, hinges, discs and where each lies, without a picture
    Json,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(in crate::cli) enum DrawView {
    /// The section toward the nearest valve, and face-on from the left
    Both,
    /// The section toward the aortic valve
    Aortic,
    /// The section toward the mitral valve
    Mitral,
    /// The section toward the tricuspid valve
    Tricuspid,
    /// The section toward the pulmonary valve
    Pulmonary,
    /// Face-on, seen from the left ventricle
    FromLeft,
    /// Face-on, seen from the right ventricle
    FromRight,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(in crate::cli) enum DrawLeft {
    /// The right ventricle, as in a four-chamber view
    Right,
    /// The left ventricle, as in a long-axis view
    Left,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(in crate::cli) enum DrawGround {
    /// For a darkened room
    Dark,
    /// For print
    Light,
}
