//! What is sent to a terminal or a file, read back: the role's colour at ten points.

#![expect(
    clippy::expect_used,
    clippy::panic,
    reason = "what cannot be read back has failed"
)]

#[path = "pictures/decoders.rs"]
mod decoders;
#[path = "pictures/sample.rs"]
mod sample;

use decoders::{Picture, place};
use raster::{
    Blocks, CellColour, CellSize, Depth, Glyphs, ImageId, PixelSize, Pixels, RasterError, cells,
    erase_kitty, glyph_cells, kitty, paint, png, sixel,
};
use sample::{PROBES, drawing};
use scene::stroke::colours::{colour, index};
use scene::stroke::{Ink, PageGround, Rgb, Role};
use std::num::NonZeroU32;

const BAY: CellSize = CellSize {
    columns: 42,
    rows: 15,
};

/// A per cent of a channel, in which sixels have their colours, and half a step.
const SIXEL_ROUNDING: u8 = 2;

fn painted(ground: PageGround) -> Pixels {
    let drawing = drawing();
    let size = PixelSize::of_width(&drawing, 640).expect("a size");
    paint(&drawing, size, ground).expect("a picture")
}

/// A probe as shares of the page.
fn share([x, y]: [f64; 2]) -> [f64; 2] {
    let page = drawing();
    [x / page.width, y / page.height]
}

fn is_near(one: Rgb, other: Rgb, most: u8) -> bool {
    let mut channels = one.channels().into_iter().zip(other.channels());
    channels.all(|(a, b)| a.abs_diff(b) <= most)
}

#[test]
fn sixels_read_back_show_each_role_in_its_colour() {
    for ground in PageGround::ALL {
        let pixels = painted(ground);
        let picture = decoders::sixel(&sixel(&pixels, ground));
        assert_eq!(picture.width, 640);
        assert_eq!(picture.height, pixels.size().height() as usize);
        assert!(
            picture.colours.iter().all(Option::is_some),
            "all is painted"
        );
        for (point, role) in PROBES {
            let (seen, wanted) = (picture.at(share(point)), colour(role, ground));
            assert!(is_near(seen, wanted, SIXEL_ROUNDING), "{role:?}: {seen:?}");
        }
    }
}

/// Reduced to the colours of the roles and their mixes a picture stays as it is: the
/// mean error is under a level of 255, and the greatest no other role.
#[test]
fn sixels_lose_little() {
    for ground in PageGround::ALL {
        let pixels = painted(ground);
        let picture = decoders::sixel(&sixel(&pixels, ground));
        let errors: Vec<u32> = pixels
            .colours()
            .zip(&picture.colours)
            .flat_map(|(was, is)| {
                let is = is.expect("painted").channels();
                let pairs = was.channels().into_iter().zip(is);
                pairs.map(|(a, b)| u32::from(a.abs_diff(b)))
            })
            .collect();
        let mean = f64::from(errors.iter().sum::<u32>()) / errors.len() as f64;
        assert!(mean < 1.0, "{mean}");
    }
}

#[test]
fn kitty_bytes_read_back_are_the_picture_itself() {
    let pixels = painted(PageGround::Dark);
    let file = png(&pixels, "Sample", "A device.").expect("a file");
    let id = ImageId(NonZeroU32::MIN);
    let bytes = kitty(&file, id, BAY);
    assert!(bytes.starts_with(b"\x1b_Ga=T,f=100,i=1,p=1,c=42,r=15,C=1,q=2,m=1;"));
    let carried = decoders::kitty(&bytes);
    assert_eq!(carried, file);
    let mut reader = png_reader(&carried);
    let mut data = vec![0; reader.output_buffer_size().expect("a size")];
    let frame = reader.next_frame(&mut data).expect("a frame");
    assert_eq!([frame.width, frame.height], [640, pixels.size().height()]);
    let read: Vec<Rgb> = data
        .chunks(3)
        .map(|rgb| Rgb {
            red: rgb[0],
            green: rgb[1],
            blue: rgb[2],
        })
        .collect();
    assert!(read.iter().copied().eq(pixels.colours()));
    let picture = Picture {
        width: 640,
        height: read.len() / 640,
        colours: read.into_iter().map(Some).collect(),
    };
    for (point, role) in PROBES {
        let seen = picture.at(share(point));
        assert_eq!(seen, colour(role, PageGround::Dark), "{role:?}");
    }
    assert_eq!(erase_kitty(id), b"\x1b_Ga=d,d=I,i=1,q=2\x1b\\");
}

fn png_reader(file: &[u8]) -> png::Reader<std::io::Cursor<&[u8]>> {
    let decoder = png::Decoder::new(std::io::Cursor::new(file));
    decoder.read_info().expect("a PNG")
}

#[test]
fn a_file_holds_scale_and_words_and_is_the_same_twice() {
    let pixels = painted(PageGround::Light);
    let file = png(&pixels, "A bay, 3.6 kg", "Wide × 5: past the hinge.").expect("a file");
    let again = png(
        &painted(PageGround::Light),
        "A bay, 3.6 kg",
        "Wide × 5: past the hinge.",
    );
    assert_eq!(file, again.expect("a file"));
    let reader = png_reader(&file);
    let info = reader.info();
    let scale = info.pixel_dims.expect("a scale");
    assert_eq!(scale.xppu, 6400, "640 pixels for 100 mm");
    assert_eq!(scale.unit, png::Unit::Meter);
    let texts: Vec<String> = info
        .utf8_text
        .iter()
        .map(|chunk| chunk.get_text().expect("text"))
        .collect();
    assert_eq!(texts, ["A bay, 3.6 kg", "Wide × 5: past the hinge."]);
}

/// Where a part of a cell is of one role, it has that role's colour exactly.
#[test]
fn cells_read_back_show_each_role_in_its_colour() {
    // Enough cells that each probe's surroundings hold one.
    let size = CellSize {
        columns: 210,
        rows: 75,
    };
    for ground in PageGround::ALL {
        for depth in [Depth::TrueColour, Depth::Indexed] {
            let painted = cells(&drawing(), size, ground, Blocks::Quadrants, depth).expect("cells");
            let picture = decoders::cells(&painted);
            for (point, role) in PROBES {
                let wanted = match depth {
                    Depth::TrueColour => colour(role, ground),
                    Depth::Indexed => Rgb::of_index(index(role, ground)).expect("an index"),
                };
                assert_eq!(picture.at(share(point)), wanted, "{role:?} {depth:?}");
            }
        }
    }
}

/// By index no colour stands on the screen that is not a role's of this drawing.
#[test]
fn indexed_cells_have_the_colours_of_the_drawing_alone() {
    let drawing = drawing();
    for ground in PageGround::ALL {
        for blocks in Blocks::ALL {
            let painted = cells(&drawing, BAY, ground, blocks, Depth::Indexed).expect("cells");
            let of_drawing = |colour: CellColour| {
                let roles = drawing.strokes.iter().map(|stroke| stroke.role);
                roles
                    .chain([Role::Ground])
                    .any(|role| colour == CellColour::Index(index(role, ground)))
            };
            let all = painted
                .cells
                .iter()
                .flat_map(|cell| [cell.ink, cell.ground]);
            assert!(all.into_iter().all(of_drawing));
        }
    }
}

/// Harm is seen at the smallest size: what lies past the plate has cells in its own
/// colour, in 24-bit and by index.
#[test]
fn what_lies_past_a_valve_is_seen_in_a_bay() {
    for ground in PageGround::ALL {
        for depth in [Depth::TrueColour, Depth::Indexed] {
            let painted = cells(&drawing(), BAY, ground, Blocks::Quadrants, depth).expect("cells");
            let wanted = match depth {
                Depth::TrueColour => CellColour::Rgb(colour(Role::Beyond, ground)),
                Depth::Indexed => CellColour::Index(index(Role::Beyond, ground)),
            };
            let blocks = painted
                .cells
                .iter()
                .filter(|cell| !cell.glyph.is_ascii_graphic());
            assert!(
                blocks
                    .into_iter()
                    .any(|cell| [cell.ink, cell.ground].contains(&wanted)),
                "{ground:?} {depth:?}"
            );
        }
    }
}

/// The words of a picture in cells: all of them are there or named as left out.
#[test]
fn words_stand_on_blood_or_are_told() {
    let drawing = drawing();
    let size = CellSize {
        columns: 90,
        rows: 31,
    };
    for size in [BAY, size] {
        let painted = cells(
            &drawing,
            size,
            PageGround::Dark,
            Blocks::Quadrants,
            Depth::TrueColour,
        )
        .expect("cells");
        let text: String = (0..size.rows)
            .flat_map(|row| {
                painted
                    .line(row)
                    .iter()
                    .map(|cell| cell.glyph)
                    .chain(['\n'])
            })
            .collect();
        for stroke in &drawing.strokes {
            if let Ink::Word(word) = &stroke.ink {
                let is_shown = text.contains(&word.text);
                assert_ne!(
                    is_shown,
                    painted.omitted.contains(&word.text),
                    "{}",
                    word.text
                );
            }
        }
        assert!(
            text.contains("1.8 mm past"),
            "harm is never what is left out"
        );
    }
}

/// Without colours the device and the muscle differ by pattern, and blood is empty.
#[test]
fn patterns_tell_device_from_muscle() {
    let size = CellSize {
        columns: 90,
        rows: 31,
    };
    let cell_at = |glyphs: Glyphs, [x, y]: [f64; 2]| {
        let picture = glyph_cells(&drawing(), size, glyphs).expect("cells");
        let [across, down] = share([x, y]);
        let columns = usize::from(size.columns);
        let row = place(down, usize::from(size.rows));
        picture.cells[row * columns + place(across, columns)]
    };
    let (muscle, device, blood) = ([50.0, 62.0], [50.0, 37.0], [15.0, 50.0]);
    assert_eq!(cell_at(Glyphs::Ascii, muscle).glyph, '#');
    assert_eq!(cell_at(Glyphs::Ascii, device).glyph, '=');
    assert_eq!(cell_at(Glyphs::Ascii, blood).glyph, '.');
    assert_eq!(cell_at(Glyphs::Ascii, [37.5, 17.5]).glyph, 'X');
    let dots = |point| {
        let glyph = cell_at(Glyphs::Braille, point).glyph;
        (glyph as u32).saturating_sub(0x2800).count_ones()
    };
    assert_eq!(cell_at(Glyphs::Braille, blood).glyph, ' ');
    assert_eq!(dots(device), 4, "every other line");
    assert_eq!(dots(muscle), 2, "every fourth diagonal");
    let beyond = cell_at(Glyphs::Braille, [37.5, 17.5]);
    assert_eq!((beyond.glyph, beyond.role), ('█', Role::Beyond));
}

/// Without colours a disc among the cusps is told from one that is clear by blocks,
/// which nothing else of the picture has.
#[test]
fn blocks_fill_what_is_beyond_a_limit_and_nothing_else() {
    let blocks = |drawing: &scene::stroke::Drawing| {
        let picture = glyph_cells(drawing, BAY, Glyphs::Braille).expect("cells");
        let is_block = |cell: &&raster::GlyphCell| ('\u{2580}'..='\u{259F}').contains(&cell.glyph);
        let blocks = picture.cells.iter().filter(is_block);
        assert!(blocks.clone().all(|cell| cell.role == Role::Beyond));
        blocks.count()
    };
    let past = drawing();
    assert!(blocks(&past) > 0);
    let mut clear = past.clone();
    clear.strokes.retain(|stroke| stroke.role != Role::Beyond);
    assert!(clear.strokes.len() < past.strokes.len());
    assert_eq!(blocks(&clear), 0);
}

#[test]
fn a_size_that_memory_cannot_hold_is_refused() {
    assert!(matches!(
        PixelSize::new(0, 5),
        Err(RasterError::Empty { .. })
    ));
    assert!(PixelSize::new(4096, 4096).is_ok());
    for (width, height) in [(4097, 4096), (20_000, 1), (u32::MAX, u32::MAX)] {
        let refused = PixelSize::new(width, height);
        assert!(matches!(refused, Err(RasterError::TooManyPixels { .. })));
    }
    for [width, height] in [
        [0.0, 1.0],
        [1.0, f64::NAN],
        [f64::INFINITY, 1.0],
        [-1.0, 1.0],
    ] {
        let page = scene::stroke::Drawing {
            width,
            height,
            ..drawing()
        };
        let refused = PixelSize::of_width(&page, 640);
        assert!(
            matches!(refused, Err(RasterError::NoPage { .. })),
            "{width} {height}"
        );
        let refused = glyph_cells(&page, BAY, Glyphs::Ascii);
        assert!(matches!(refused, Err(RasterError::NoPage { .. })));
    }
    let narrow = scene::stroke::Drawing {
        width: 1e-300,
        ..drawing()
    };
    assert!(PixelSize::of_width(&narrow, 640).is_err());
    let many = CellSize {
        columns: u16::MAX,
        rows: 1,
    };
    let refused = cells(
        &drawing(),
        many,
        PageGround::Dark,
        Blocks::Quadrants,
        Depth::Indexed,
    );
    assert!(matches!(refused, Err(RasterError::TooManyCells { .. })));
    let none = CellSize {
        columns: 0,
        rows: 3,
    };
    let refused = glyph_cells(&drawing(), none, Glyphs::Braille);
    assert!(matches!(refused, Err(RasterError::Empty { .. })));
}
