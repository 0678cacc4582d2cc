use super::*;
use crate::{Part, Point};

fn stroke(role: Role, ink: Ink) -> Stroke {
    Stroke {
        part: Part::Caption,
        role,
        ink,
    }
}

fn word(text: &str) -> Ink {
    Ink::Word(Word {
        at: Point::new(5.0, 6.0),
        text: text.to_owned(),
        size: 2.5,
        anchor: Anchor::Middle,
        is_bold: true,
        has_halo: true,
    })
}

fn drawing(strokes: Vec<Stroke>) -> Drawing {
    Drawing {
        width: 40.0,
        height: 10.25,
        title: "A \"title\"".to_owned(),
        alternative_text: "What it shows.".to_owned(),
        strokes,
    }
}

#[test]
fn a_drawing_is_written_as_it_stands() {
    let square = Path::polygon([(0.0, 0.0), (1.0, 0.0), (1.0, 1.0)].map(|(x, y)| Point::new(x, y)));
    let line = Ink::Line {
        path: Path::polyline([Point::new(-0.0001, 2.0), Point::new(1.5, 1.0 / 3.0)]),
        width: 0.25,
        dash: Some(Dash { on: 1.0, off: 0.5 }),
    };
    let text = svg(
        &drawing(vec![
            stroke(Role::Ok, Ink::Fill(square)),
            stroke(Role::Plate, line),
            stroke(Role::Word, word("rim 1.7 mm")),
        ]),
        PageGround::Light,
    );
    assert!(text.starts_with("<svg ") && text.ends_with("</svg>\n"));
    assert!(text.contains("viewBox=\"0 0 40 10.25\""), "{text}");
    assert!(text.contains("<title>A &quot;title&quot;</title>"));
    assert!(text.contains("<path fill=\"#0072b2\" d=\"M0 0L1 0L1 1Z\"/>"));
    assert!(text.contains("stroke-dasharray=\"1 0.5\" d=\"M0 2L1.5 0.333\""));
    assert!(text.contains("text-anchor=\"middle\"") && text.contains("font-weight=\"bold\""));
    assert!(text.contains(">rim 1.7 mm</text>"));
}

#[test]
fn words_cannot_become_markup() {
    let text = svg(
        &drawing(vec![stroke(Role::Word, word("<b>&\"\u{1b}"))]),
        PageGround::Dark,
    );
    assert!(text.contains("&lt;b&gt;&amp;&quot;\u{fffd}"));
}

#[test]
fn the_ground_is_the_table_s() {
    for ground in PageGround::ALL {
        let text = svg(&drawing(Vec::new()), ground);
        let colour = Hex(colour(Role::Ground, ground)).to_string();
        assert!(text.contains(&format!("fill=\"{colour}\"")), "{text}");
    }
}
