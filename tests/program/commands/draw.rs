//! `rimwise draw`, as its users call it.

use crate::call::{Call, complaint, printed};
use crate::desk::Desk;
use std::fs;
use std::process::Output;

const DEMONSTRATION: &str = "outlet-infant";
const NARROW: &str = "even-narrow/5.5x2";
const WIDE: &str = "even-wide/5x3";

fn draw(arguments: &[&str]) -> Output {
    Call::of(&["draw"]).and(arguments).few_draws().output()
}

#[test]
fn a_plate_is_the_same_bytes_in_every_run() {
    for format in ["svg", "png", "json"] {
        let ask = || draw(&[DEMONSTRATION, NARROW, WIDE, "--format", format]).stdout;
        let first = ask();
        assert!(first.len() > 1000, "{format}");
        assert!(first == ask(), "{format}");
    }
}

#[test]
fn a_plate_says_what_the_engine_says() {
    let svg = printed(&draw(&[DEMONSTRATION, NARROW, WIDE]));
    for words in [
        "Muscular outlet defect, 3.6 kg, short aortic rim",
        "! 0.5 mm clear of the aortic valve",
        "× 1.8 mm past the aortic hinge",
        "right ventricle on the left",
        "inside limits (geometry only)",
        "seen from the left ventricle",
        "never says whether to close",
    ] {
        assert!(svg.contains(words), "{words}");
    }
    let left = printed(&draw(&[DEMONSTRATION, NARROW, "--left", "left"]));
    assert!(left.contains("left ventricle on the left"));
}

#[test]
fn every_view_of_every_scenario_is_drawn() {
    let views = [
        "both",
        "aortic",
        "mitral",
        "tricuspid",
        "pulmonary",
        "from-left",
        "from-right",
    ];
    for (name, _) in files::shipped::SCENARIOS {
        for view in views {
            // With trials nothing is drawn from so few draws.
            let output = draw(&[name, WIDE, "--view", view, "--before"]);
            assert!(
                output.status.success(),
                "{name} {view}: {}",
                complaint(&output)
            );
            let svg = printed(&output);
            assert!(svg.ends_with("</svg>\n"), "{name} {view}");
            assert!(
                !svg.contains("NaN") && !svg.contains("inf\""),
                "{name} {view}"
            );
        }
    }
}

#[test]
fn json_holds_what_a_drawing_needs() {
    let json = draw(&[DEMONSTRATION, WIDE, "--format", "json"]).stdout;
    let report: serde_json::Value = serde_json::from_slice(&json).expect("JSON");
    assert_eq!(report["format"], 2);
    assert_eq!(report["defect"]["narrowest"]["long_axis_mm"], 4.75);
    let valves = report["valves"].as_array().expect("valves");
    assert_eq!(valves[0]["valve"], "aortic_valve");
    assert!(valves[0]["hinge"][0].is_f64());
    let size = &report["sizes"][0];
    assert_eq!(
        (&size["shape"], &size["size"]),
        (&"even-wide".into(), &"5x3".into())
    );
    assert_eq!(size["discs"].as_array().map(Vec::len), Some(2));
    let nearest = &size["nearest"][0];
    let clearance = nearest["clearance_mm"].as_f64().expect("a clearance");
    assert!(clearance < -1.0 && nearest["nearest_point_in_cut"].is_boolean());
    assert!(size["seat"]["waist_in_defect_mm"].is_f64());
    assert_eq!(size["least_rim_overlaps"].as_array().map(Vec::len), Some(2));
}

#[test]
fn the_ending_of_a_file_says_the_format() {
    let desk = Desk::new("draw");
    let folder = desk.folder();
    let starts: [(&str, &[u8]); 3] = [
        ("plate.svg", b"<svg "),
        ("plate.PNG", b"\x89PNG\r\n\x1a\n"),
        ("plate.json", b"{\n"),
    ];
    for (name, start) in starts {
        let path = folder.join(name);
        let output = draw(&[DEMONSTRATION, NARROW, "--out", &path.to_string_lossy()]);
        assert!(
            output.status.success() && output.stdout.is_empty(),
            "{}",
            complaint(&output)
        );
        assert!(
            fs::read(&path).expect("written").starts_with(start),
            "{name}"
        );
    }
    let other = folder.join("plate.pdf");
    let output = draw(&[DEMONSTRATION, NARROW, "--out", &other.to_string_lossy()]);
    assert_eq!(output.status.code(), Some(2));
    assert!(
        complaint(&output).contains("--format"),
        "{}",
        complaint(&output)
    );
    assert!(!other.exists());
}

#[test]
fn a_bad_call_is_told_and_exits_with_2() {
    for arguments in [
        vec![DEMONSTRATION],
        vec![DEMONSTRATION, "even-wide/99x9"],
        vec![DEMONSTRATION, NARROW, "--view", "sideways"],
        vec![DEMONSTRATION, NARROW, "--width", "20"],
        vec![DEMONSTRATION, NARROW, "--width", "5000"],
        vec![
            DEMONSTRATION,
            NARROW,
            "--format",
            "png",
            "--pixels",
            "100000",
        ],
        vec![DEMONSTRATION, NARROW, NARROW, NARROW, NARROW, NARROW],
    ] {
        let output = draw(&arguments);
        assert_eq!(output.status.code(), Some(2), "{arguments:?}");
        assert!(output.stdout.is_empty() && !output.stderr.is_empty());
    }
}

#[test]
fn a_title_cannot_become_markup() {
    let (_, case) = files::shipped::scenario(DEMONSTRATION).expect("shipped");
    let title = "Muscular outlet defect, 3.6 kg, short aortic rim";
    let hostile = case.replace(title, "<script>\\u{1b}[2J\\u{202e}</title>");
    assert!(hostile != case);
    let desk = Desk::new("draw-hostile");
    let output = draw(&[&desk.file("case.ron", &hostile), NARROW]);
    let svg = printed(&output);
    assert!(output.status.success(), "{}", complaint(&output));
    assert!(svg.contains("&lt;script&gt;") && !svg.contains("<script"));
    assert!(!svg.contains('\u{1b}') && !svg.contains('\u{202e}'));
}

/// The README's plate is the one that is drawn; `RIMWISE_PICTURES=1` writes it anew.
#[test]
fn the_plate_of_the_readme_is_what_is_drawn() {
    let sizes = ["three-neighbours", "offset-left/6.5x3", "even-wide/6x3"];
    let call = Call::of(&["draw"]).and(&sizes);
    let drawn = call.and(&["--view", "aortic"]).text();
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../docs/pictures/plate.svg");
    if std::env::var_os("RIMWISE_PICTURES").is_some() {
        fs::write(path, &drawn).expect("a picture");
    }
    let kept = fs::read_to_string(path).expect("a picture");
    assert!(
        kept == drawn,
        "docs/pictures/plate.svg is of another program"
    );
}
