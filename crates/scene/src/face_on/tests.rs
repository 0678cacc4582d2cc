use super::*;
use crate::sample;
use geometry::{Accuracy, lip};
use measurement::Valve;
use sizing::face_of;

/// What a distance taken from a picture may differ by from the engine's.
const CLOSE: Mm = 0.01;

/// Between the rays along which a least lip is looked for.
const RAYS: Radians = degrees(0.25);

fn outline(scene: &Scene, part: Part) -> Vec<Point> {
    let form = scene.of(part).find(|form| form.label().is_none());
    form.map(Form::points).unwrap_or_default()
}

/// How far along a ray from `centre` the outline is last met.
fn along_ray(outline: &[Point], centre: Point, azimuth: Radians) -> Option<Mm> {
    let out = seen(radial(azimuth));
    let aside = |point: Point| (point.x - centre.x) * out.y - (point.y - centre.y) * out.x;
    let along = |point: Point| (point.x - centre.x) * out.x + (point.y - centre.y) * out.y;
    outline
        .windows(2)
        .filter_map(|pair| {
            let (start, end) = (aside(pair[0]), aside(pair[1]));
            if (start < 0.0) == (end < 0.0) {
                return None;
            }
            let share = start / (start - end);
            Some(along(pair[0]) + share * (along(pair[1]) - along(pair[0])))
        })
        .reduce(f64::max)
}

#[test]
fn a_ruler_on_the_picture_finds_the_engines_lips() {
    let (mut beside, mut single) = (0, 0);
    for candidate in sample::candidates(1000) {
        let (seat, _, _) = candidate.worst();
        let face = face_of(candidate.valve);
        let scene = face_on(&candidate.setting, &candidate.size, candidate.turn, face)
            .expect("all is read");
        let anatomy = candidate.setting.anatomy();
        let opening = anatomy.defect.opening(face);
        let azimuth = anatomy.azimuths[candidate.valve.index()].expect("read");
        let occluder = &candidate.size.occluder;
        let disc = seat.disc(occluder, face, 0.0, seat.play().centre);
        // A disc beside the centre of the opening is not met along every ray.
        if (disc.centre - opening.centre).length() >= disc.radius {
            beside += 1;
            continue;
        }
        let rim = outline(&scene, Part::Disc(face));
        let edge = outline(&scene, Part::HoleEdge);
        let ruled = |azimuth: Radians| {
            let from = seen(opening.centre);
            along_ray(&rim, from, azimuth).expect("within")
                - along_ray(&edge, from, azimuth).expect("within")
        };
        let engine = lip::lip_of(&disc, opening, azimuth);
        assert!((ruled(azimuth) - engine).abs() < CLOSE, "{candidate:?}");

        if !seat.play().is_place() {
            continue;
        }
        single += 1;
        let hinge_arcs = anatomy.hinge_arcs[face.index()];
        for arcs in [hinge_arcs, hinge_arcs.complement()] {
            let engine = lip::least_lip(occluder, &seat, opening, face, &arcs, Accuracy::DEFAULT)
                .expect("a disc and arcs");
            let mut least = f64::INFINITY;
            for arc in arcs.arcs() {
                let mut at = arc.start;
                while at < arc.end() {
                    least = least.min(ruled(at));
                    at += RAYS;
                }
                least = least.min(ruled(arc.end()));
            }
            assert!(
                (least - engine).abs() < CLOSE,
                "{least} {engine} {candidate:?}"
            );
        }
    }
    println!("1000 candidates, {beside} beside the centre; {single} seats of a single place");
    assert!(beside <= 100 && single >= 300, "{beside} {single}");
}

#[test]
fn twelve_is_up_and_three_is_right() {
    let mut values = sample::outlet();
    values.retain(|(address, _)| *address != "tricuspid.azimuth");
    values.push(("tricuspid.azimuth", 90.0));
    let setting = sample::setting(&values);
    let size = sample::size(5.0, 6.0, 0.0);
    let left = face_on(&setting, &size, 0.0, Face::Left).expect("all is read");
    let hinge = outline(&left, Part::Hinge(Valve::Aortic));
    assert!(hinge.iter().all(|point| point.y > 3.0));
    let right = face_on(&setting, &size, 0.0, Face::Right).expect("all is read");
    let hinge = outline(&right, Part::Hinge(Valve::Tricuspid));
    assert!(hinge.iter().all(|point| point.x > 6.0));
    assert!(outline(&right, Part::Hinge(Valve::Aortic)).is_empty());
    // From 3 to 6: below and to the right.
    let bundle = outline(&left, Part::Bundle);
    assert!(bundle.iter().all(|point| point.x > -1e-9 && point.y < 1e-9));
}

#[test]
fn an_offset_disc_moves_with_the_turn() {
    let setting = sample::setting(&sample::outlet());
    let size = sample::size(5.0, 4.0, 2.0);
    let lowest = |turn| {
        let scene = face_on(&setting, &size, turn, Face::Left).expect("all is read");
        let disc = outline(&scene, Part::Disc(Face::Left));
        disc.iter()
            .fold(f64::INFINITY, |least, one| least.min(one.y))
    };
    // R = 4.5, moved 2 mm toward 6 o'clock, then toward 12.
    assert!((lowest(0.0) + 6.5).abs() < CLOSE);
    assert!((lowest(degrees(180.0)) + 2.5).abs() < CLOSE);
}

#[test]
fn only_what_lies_past_a_hinge_is_marked() {
    let setting = sample::setting(&sample::outlet());
    let overlaps = |wider| {
        let size = sample::size(5.0, wider, 0.0);
        let scene = face_on(&setting, &size, 0.0, Face::Left).expect("all is read");
        scene.of(Part::Overlap(Valve::Aortic)).count()
    };
    // The hinge stands at ρ(0°) + 1.5 = 3.6 mm: R = 3.0 ends short of it.
    assert_eq!((overlaps(1.0), overlaps(6.0)), (0, 1));
}
