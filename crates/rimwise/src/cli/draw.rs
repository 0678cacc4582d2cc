//! `rimwise draw`: sizes in the heart of a case, as a file.

use super::args::{DrawArguments, DrawFormat, DrawGround, DrawLeft, DrawView};
use super::inputs::{BadInput, Inputs, Ready};
use super::report::drawing;
use anyhow::{Context, Result};
use files::visible;
use geometry::Face;
use measurement::Valve;
use paper::CAUTION;
use raster::{PixelSize, RasterError};
use scene::plate::{Column, Orientation, Plate, usual_views};
use scene::stroke::{Drawing, PageGround};
use scene::{View, svg};
use sizing::{Candidate, Turn, device_name};
use std::fs;
use std::io::{self, IsTerminal, Write};
use std::path::Path;

/// Pixels of a PNG to a millimetre of its page where a call names none: about 200 to
/// an inch.
const PIXELS_PER_MM: u32 = 8;

/// Draws the named sizes and writes them to a file or to standard output.
pub(super) fn run(asked: &DrawArguments, out: &mut dyn Write) -> Result<()> {
    let format = format(asked)?;
    if format == DrawFormat::Png && asked.out.is_none() && io::stdout().is_terminal() {
        let refusal = "a PNG is not for a terminal; add --out FILE";
        return Err(BadInput(refusal.to_owned()).into());
    }
    let ready = Inputs::read(&asked.common)?.ready(&asked.common)?;
    let candidates: Vec<Candidate> = asked
        .sizes
        .iter()
        .map(|name| candidate(&ready, name))
        .collect::<Result<_>>()?;
    let written = match format {
        DrawFormat::Svg => {
            let plate = plate(asked, &ready, &candidates);
            svg::svg(&plate, ground(asked.ground)).into_bytes()
        }
        DrawFormat::Png => pixels(asked, &plate(asked, &ready, &candidates))?,
        DrawFormat::Json => {
            drawing::json(&ready.setting, &candidates, &ready.provenance)?.into_bytes()
        }
    };
    match &asked.out {
        Some(path) => fs::write(path, written)
            .with_context(|| format!("cannot write {}", visible(&path.to_string_lossy()))),
        None => Ok(out.write_all(&written)?),
    }
}

/// What is to be written: as asked, else by the ending of the file's name.
fn format(asked: &DrawArguments) -> Result<DrawFormat> {
    if let Some(format) = asked.format {
        return Ok(format);
    }
    let ending = asked.out.as_deref().and_then(Path::extension);
    match ending.map(|ending| ending.to_string_lossy().to_lowercase()) {
        None => Ok(DrawFormat::Svg),
        Some(ending) if ending == "svg" => Ok(DrawFormat::Svg),
        Some(ending) if ending == "png" => Ok(DrawFormat::Png),
        Some(ending) if ending == "json" => Ok(DrawFormat::Json),
        Some(ending) => Err(BadInput(format!(
            "--out: a name that ends in .{} says nothing of the format; add --format svg, png or json",
            visible(&ending)
        ))
        .into()),
    }
}

/// A size of the catalogues, held against every limit of the case.
fn candidate(ready: &Ready, name: &str) -> Result<Candidate> {
    let size = ready.find(name)?;
    let counter = ready.counter.as_deref();
    Ok(Candidate::assess(&ready.setting, size, Turn::Best, counter))
}

fn plate(asked: &DrawArguments, ready: &Ready, candidates: &[Candidate]) -> Drawing {
    let names: Vec<String> = candidates
        .iter()
        .map(|one| visible(&device_name(&one.name())).into_owned())
        .collect();
    let reasons: Vec<Option<String>> = candidates
        .iter()
        .map(|one| Some(visible(one.judged.because.first()?).into_owned()))
        .collect();
    let columns = names.iter().zip(&reasons).zip(candidates);
    let columns = columns.map(|((name, reason), candidate)| Column {
        name,
        reason: reason.as_deref(),
        candidate,
    });
    let columns = columns.collect();
    let made_from = ready.provenance.whole();
    let plate = Plate {
        title: &visible(&ready.setting.case().title),
        notes: &[&made_from, CAUTION],
        setting: &ready.setting,
        columns,
        views: views(asked.view, ready, candidates),
        orientation: match asked.left {
            DrawLeft::Right => Orientation::RightVentricleLeft,
            DrawLeft::Left => Orientation::LeftVentricleLeft,
        },
        width: f64::from(asked.width),
    };
    plate.draw()
}

const fn ground(asked: DrawGround) -> PageGround {
    match asked {
        DrawGround::Dark => PageGround::Dark,
        DrawGround::Light => PageGround::Light,
    }
}

/// A drawing as a PNG file. A size that cannot be painted is the call's fault.
fn pixels(asked: &DrawArguments, drawing: &Drawing) -> Result<Vec<u8>> {
    let width = asked
        .pixels
        .unwrap_or(PIXELS_PER_MM * u32::from(asked.width));
    let refusal = |error: RasterError| BadInput(format!("--pixels: {error}"));
    let size = PixelSize::of_width(drawing, width).map_err(refusal)?;
    let pixels = raster::paint(drawing, size, ground(asked.ground)).map_err(refusal)?;
    let file = raster::png(&pixels, &drawing.title, &drawing.alternative_text);
    file.context("cannot make the PNG")
}

/// The views that are asked for.
fn views(asked: DrawView, ready: &Ready, candidates: &[Candidate]) -> Vec<View> {
    match asked {
        DrawView::Both => candidates
            .first()
            .map(|first| usual_views(&ready.setting, first))
            .unwrap_or_default(),
        DrawView::Aortic => vec![View::Section(Valve::Aortic)],
        DrawView::Mitral => vec![View::Section(Valve::Mitral)],
        DrawView::Tricuspid => vec![View::Section(Valve::Tricuspid)],
        DrawView::Pulmonary => vec![View::Section(Valve::Pulmonary)],
        DrawView::FromLeft => vec![View::FaceOn(Face::Left)],
        DrawView::FromRight => vec![View::FaceOn(Face::Right)],
    }
}
