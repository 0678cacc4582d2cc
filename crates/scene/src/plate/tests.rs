//! A ruler on the strokes finds what the engine finds.

mod ruler;
mod words;

use super::picture::Picture;
use super::*;
use crate::sample::{self, Candidate};
use crate::section::PlateLine;
use geometry::lip::{least_lip, lip_of};
use geometry::{Accuracy, Face, degrees, radial};
use measurement::Valve;
use ruler::Ruler;
pub(crate) use ruler::ruled;
use sizing::house_rules::Parameter;
use sizing::{State, Subject, face_of, nominal_seat};

/// What a length ruled on a drawing may differ by from the engine's, mm.
const CLOSE: Mm = 0.01;

/// How far beside the plane a disc's centre may lie for the plane to hold the
/// nearest points of disc and plate, mm.
const IN_PLANE: Mm = 1e-6;

const ORIENTATIONS: [Orientation; 2] = [
    Orientation::RightVentricleLeft,
    Orientation::LeftVentricleLeft,
];

fn column(candidate: &sizing::Candidate) -> Column<'_> {
    Column {
        name: "narrow 5 × 2",
        reason: Some("a reason"),
        candidate,
    }
}

/// The strokes of a view before clipping, with a ruler on them.
fn drawn<'a>(
    candidate: &'a Candidate,
    assessed: &'a sizing::Candidate,
    view: View,
    orientation: Orientation,
) -> (Picture<'a>, Ruler) {
    let setting = &candidate.setting;
    let picture = Picture::of(setting, assessed, view, orientation).expect("all is read");
    let plate = setting.anatomy().valves[candidate.valve];
    let all = picture
        .bounds(Detail::Full)
        .grown(plate.map_or(0.0, |plate| 2.0 * plate.plate().semi_first));
    let corner = Point::new(7.0, 11.0);
    let mut panel = Panel::new(corner, all, 3.0, picture.is_mirrored());
    picture.draw(&mut panel, Detail::Full);
    (picture, Ruler::on(panel))
}

fn heading(
    candidate: &Candidate,
    assessed: &sizing::Candidate,
    view: View,
    of: &Picture,
) -> String {
    Heading::of(&candidate.setting, column(assessed), &[(view, Some(of))]).sentence()
}

#[test]
fn rim_reach_and_clearance_ruled_on_a_section_are_the_engines() {
    let mut counts = Counts::default();
    for candidate in sample::candidates(1000) {
        let assessed = candidate.assessed();
        for orientation in ORIENTATIONS {
            for view in View::all(&candidate.setting) {
                let View::Section(valve) = view else { continue };
                let (picture, ruler) = drawn(&candidate, &assessed, view, orientation);
                let said = heading(&candidate, &assessed, view, &picture);
                if valve == candidate.valve {
                    check_rim_and_reach(&candidate, &ruler);
                    check_clearance(&candidate, &picture, &ruler, &said, &mut counts);
                    check_share(&candidate, &said);
                } else {
                    // Nothing is said of a valve that nobody measured.
                    assert!(said.contains("not measured"), "{said}");
                    assert!(ruler.lines(Part::Clearance(valve)).is_empty());
                    assert!(ruler.lines(Part::Rim(valve)).is_empty());
                }
            }
        }
    }
    let Counts {
        drawn,
        elsewhere,
        negative,
        ruled,
    } = counts;
    let share = 100 * drawn / (drawn + elsewhere);
    println!(
        "of {} clearances {share} % are ruled in the cut ({ruled} by the outlines as well, {negative} \
         of them below 0); of the others the nearest point lies outside it",
        drawn + elsewhere
    );
    assert!(share >= 45 && ruled >= 900 && negative >= 200);
}

#[derive(Default)]
struct Counts {
    drawn: usize,
    elsewhere: usize,
    negative: usize,
    ruled: usize,
}

fn check_rim_and_reach(candidate: &Candidate, ruler: &Ruler) {
    let anatomy = candidate.setting.anatomy();
    let valve = candidate.valve;
    let face = face_of(valve);
    let hinge = ruler.dot(Part::Hinge(valve)).expect("a ring at the hinge");
    let edge = ruler.upper_edge_at(hinge.x);
    let rim = anatomy.rims[valve].expect("read");
    assert!(
        (hinge.y - edge - rim).abs() < CLOSE,
        "{} {rim}",
        hinge.y - edge
    );
    let [from, to] = ruler.lines(Part::Rim(valve))[0];
    assert!((from.distance(to) - rim).abs() < CLOSE);

    let (_, _, place) = candidate.worst();
    let (disc, opening) = (place.disc(face), anatomy.defect.opening(face));
    if (disc.centre - opening.centre).length() < disc.radius {
        let azimuth = anatomy.azimuths[valve].expect("read");
        let engine = lip_of(disc, opening, azimuth);
        let outline = ruler.outline(Part::Disc(face));
        let top = outline.iter().map(|point| point.y).fold(f64::MIN, f64::max);
        assert!(
            (top - edge - engine).abs() < CLOSE,
            "{} {engine}",
            top - edge
        );
        let [from, to] = ruler.lines(Part::Reach(face))[0];
        assert!((to.y - from.y - engine).abs() < CLOSE);
    }
}

fn check_clearance(
    candidate: &Candidate,
    picture: &Picture,
    ruler: &Ruler,
    said: &str,
    counts: &mut Counts,
) {
    let (_, plate, place) = candidate.worst();
    let face = plate.face();
    let engine = place.clearance;
    let line = ruler
        .lines(Part::Clearance(candidate.valve))
        .first()
        .copied();
    let outside = said.contains("nearest point outside this cut");
    assert_eq!(line.is_none(), outside, "{said}");
    let overlap = ruler.lines(Part::Overlap(candidate.valve));
    assert!(engine < 0.0 || overlap.is_empty());

    let opening = candidate.setting.anatomy().defect.opening(face);
    let disc = place.disc(face);
    let aside = (disc.centre - opening.centre).cross(plate.radial());
    let section = picture.section().expect("a section");
    let line_of_plate = PlateLine::of(&section.cut, &plate).expect("cut through the hinge");
    let [foot, tip] = ruler.lines(Part::Plate(candidate.valve))[0];
    assert!((foot.distance(tip) - line_of_plate.foot.distance(line_of_plate.tip)).abs() < 1e-9);
    let outline = ruler.outline(Part::Disc(face));
    let found = ruled(&outline, [foot, tip], disc.thickness, plate.cusp_depth());
    if aside.abs() <= IN_PLANE
        && let Some(found) = found
    {
        assert!(
            (found - engine).abs() < CLOSE,
            "{found} {engine} {candidate:?}"
        );
        assert!(line.is_some(), "{candidate:?}");
        counts.ruled += 1;
        counts.negative += usize::from(engine < 0.0);
    }
    if let Some([from, to]) = line {
        assert!((from.distance(to) - engine.abs()).abs() < CLOSE);
        counts.drawn += 1;
    } else {
        counts.elsewhere += 1;
    }
}

/// The open shares that are said are those the engine counts: at the farthest
/// stand-off of the seat.
fn check_share(candidate: &Candidate, said: &str) {
    let Candidate {
        setting,
        size,
        turn,
        ..
    } = candidate;
    let seat = nominal_seat(setting, size, *turn);
    for (face, name) in [(Face::Left, "LVOT "), (Face::Right, "RVOT ")] {
        let tract = setting.anatomy().tracts[face].expect("read");
        let stand_off = seat.stand_off(face).most;
        let disc = seat.disc(&size.occluder, face, stand_off, geometry::Vec2::ZERO);
        let engine = tract.open_share(
            disc.radius,
            disc.stand_off + disc.thickness,
            size.occluder.conformability,
            setting.parameter(Parameter::DeadSpace),
        );
        let rest = said.split(name).nth(1).expect("said of both sides");
        let text = rest.split(" %").next().expect(said);
        let figure = text.trim_start_matches(['<', '>', ' ']);
        let shown: f64 = figure.parse().expect(said);
        assert!((shown - 100.0 * engine).abs() <= 0.51, "{said} {engine}");
        // One that rounds to a limit says on which side of it it lies.
        assert!(!text.starts_with('<') || 100.0 * engine < shown, "{said}");
        assert!(!text.starts_with('>') || 100.0 * engine > shown, "{said}");
    }
}

#[test]
fn rim_and_rim_overlap_ruled_face_on_are_the_engines() {
    let (mut found, mut nowhere) = (0, 0);
    // A face lies the same in both orientations: each is ruled on every other candidate.
    let candidates = sample::candidates(1000).into_iter();
    for (candidate, orientation) in candidates.zip(ORIENTATIONS.into_iter().cycle()) {
        let assessed = candidate.assessed();
        for face in Face::BOTH {
            let (_, ruler) = drawn(&candidate, &assessed, View::FaceOn(face), orientation);
            let is_ruled = check_face(&candidate, &assessed, face, &ruler);
            found += usize::from(is_ruled);
            nowhere += usize::from(!is_ruled);
        }
    }
    println!(
        "{found} rim overlaps are ruled; of {nowhere} the disc lies beside the defect's centre"
    );
    assert!(found >= 1500, "{found} {nowhere}");
}

/// Rules rim and rim overlap of a face; whether the rim overlap has a line, which it
/// has not where the disc lies beside the defect's centre.
fn check_face(
    candidate: &Candidate,
    assessed: &sizing::Candidate,
    face: Face,
    ruler: &Ruler,
) -> bool {
    let anatomy = candidate.setting.anatomy();
    let opening = anatomy.defect.opening(face);
    let edge = ruler.outline(Part::Cavity(face));
    let centre = Point::new(opening.centre.v, opening.centre.u);
    if face == face_of(candidate.valve) {
        let hinge = ruler.dot(Part::Hinge(candidate.valve)).expect("a ring");
        let rim = anatomy.rims[candidate.valve].expect("read");
        let out = ruler::beyond(&edge, centre, hinge);
        assert!((centre.distance(hinge) - out - rim).abs() < CLOSE);
    }
    let seat = nominal_seat(&candidate.setting, &candidate.size, candidate.turn);
    let arcs = anatomy.hinge_arcs[face].complement();
    let engine = least_lip(
        &candidate.size.occluder,
        &seat,
        opening,
        face,
        &arcs,
        Accuracy::DEFAULT,
    );
    let engine = engine.expect("a disc and an arc");
    let outcome = assessed.outcomes.iter().find(|outcome| {
        outcome.of == Subject::Face(face)
            && matches!(outcome.check, "rim_overlap_left" | "rim_overlap_right")
    });
    assert_eq!(outcome.and_then(|outcome| outcome.value), Some(engine));
    let Some(&[from, to]) = ruler.lines(Part::RimOverlap(face)).first() else {
        return false;
    };
    assert!((from.distance(to) - engine.abs()).abs() < CLOSE);
    assert!((ruler::beyond(&edge, centre, from) - centre.distance(from)).abs() < CLOSE);
    // It lies on the disc that is drawn, and nowhere is less of it.
    let disc = ruler.outline(Part::Disc(face));
    for step in 0..180 {
        let azimuth = degrees(2.0 * f64::from(step));
        let out = radial(azimuth);
        let far = Point::new(centre.x + out.v, centre.y + out.u);
        if arcs.contains(azimuth) {
            let reach = ruler::beyond(&disc, centre, far);
            let lip = reach - ruler::beyond(&edge, centre, far);
            assert!(lip > engine - CLOSE, "{lip} {engine}");
        }
    }
    true
}

#[test]
fn the_sides_lie_as_the_title_says() {
    let candidate = &sample::candidates(1)[0];
    let assessed = candidate.assessed();
    for orientation in ORIENTATIONS {
        let view = View::Section(Valve::Aortic);
        let plate = Plate {
            title: "A case",
            notes: &[],
            setting: &candidate.setting,
            columns: vec![column(&assessed)],
            views: vec![view],
            orientation,
            width: Plate::WIDTH,
        };
        let drawing = plate.draw();
        let middle = |face: Face| {
            let stroke = drawing
                .strokes
                .iter()
                .find(|stroke| stroke.part == Part::Disc(face));
            let Some(Ink::Fill(path)) = stroke.map(|stroke| &stroke.ink) else {
                panic!("a filled disc")
            };
            let points = lettering::corners(path);
            Extent::of(points).expect("points").least.x
        };
        let is_left_first = middle(Face::Left) < middle(Face::Right);
        let says = drawing.title.contains("left ventricle on the left");
        assert_eq!(is_left_first, says, "{}", drawing.title);
        assert_eq!(is_left_first, orientation == Orientation::LeftVentricleLeft);
    }
}

#[test]
fn what_is_drawn_from_habit_comes_no_nearer_than_the_model() {
    for candidate in sample::candidates(200) {
        let assessed = candidate.assessed();
        let view = View::Section(candidate.valve);
        let (picture, ruler) = drawn(&candidate, &assessed, view, Orientation::LeftVentricleLeft);
        let section = picture.section().expect("a section");
        let plate = section.cut.hinged.expect("read");
        let line = PlateLine::of(&section.cut, plate).expect("cut");
        let [along, down] = line.directions();
        let part = |point: Point, of: Point| {
            (point.x - line.foot.x) * of.x + (point.y - line.foot.y) * of.y
        };
        for point in ruler.habit(Part::Cusps(candidate.valve)) {
            assert!(part(point, down) <= plate.cusp_depth() + 1e-9);
            let length = line.foot.distance(line.tip);
            assert!((-1e-9..=length + 1e-9).contains(&part(point, along)));
        }
        for point in ruler.habit(Part::Root(candidate.valve)) {
            assert!(part(point, down) <= 1e-9);
        }
        let far = line.tip.x;
        for point in ruler.habit(Part::Leaflet(Valve::Mitral)) {
            assert!(point.x <= far + 1e-9);
        }
    }
}

#[test]
fn a_state_has_a_mark_as_well_as_a_role() {
    let candidate = &sample::candidates(1)[0];
    for outcome in &candidate.assessed().outcomes {
        let (mark, role) = (judged::mark(Some(outcome)), judged::role(Some(outcome)));
        match outcome.state {
            State::Stop => assert!(mark == "× " && role == Role::Beyond),
            State::Caution => assert!(mark == "! " && role == Role::Warning),
            State::Ok => assert!(mark.is_empty() && role == Role::Ok),
            State::NotAssessed => assert!(mark.is_empty() && role == Role::Dimension),
        }
    }
}
