use crate::worst_place::WorstPlace;
use crate::{Point, View, precision};
use geometry::outline::{SectionPlane, SectionPoint};
use geometry::{Face, HingedPlate, Mm, Occluder, OutflowTract, Radians, Vec2, Vec3, radial};
use measurement::Valve;
use sizing::{Anatomy, Setting, Size, face_of, nominal_seat};

/// A plane through wall, shape and, where it was read, a valve.
#[derive(Debug)]
pub(crate) struct Cut<'a> {
    pub(crate) anatomy: &'a Anatomy,
    pub(crate) occluder: &'a Occluder,
    pub(crate) valve: Valve,
    pub(crate) hinged: Option<&'a HingedPlate>,
    pub(crate) azimuth: Radians,
    pub(crate) radial: Vec2,
    pub(crate) place: WorstPlace,
    pub(crate) plane: SectionPlane,
    pub(crate) waist_diameter: Mm,
    origin: Vec2,
}

impl<'a> Cut<'a> {
    /// The plane toward a valve's hinge, with a size where it comes nearest to that
    /// valve; `None` while a reading of hole or wall is missing. Where the valve
    /// does not stand there, or its annulus was not read, the azimuth is where it
    /// would stand, or 12 o'clock.
    pub(crate) fn of(
        setting: &'a Setting,
        size: &'a Size,
        turn: Radians,
        valve: Valve,
    ) -> Option<Self> {
        if !View::Section(valve).missing(setting).is_empty() {
            return None;
        }
        let anatomy = setting.anatomy();
        let plate = anatomy.valves[valve].as_ref();
        let azimuth = anatomy.azimuths[valve].unwrap_or(0.0);
        let seat = nominal_seat(setting, size, turn);
        let place = plate.map_or_else(
            || WorstPlace::middle(&size.occluder, &seat),
            |plate| WorstPlace::of(&size.occluder, &seat, plate),
        );
        let occluder = &size.occluder;
        let waist = seat.waist_diameter();
        Some(Self::new(
            anatomy, occluder, valve, plate, azimuth, waist, place,
        ))
    }

    fn new(
        anatomy: &'a Anatomy,
        occluder: &'a Occluder,
        valve: Valve,
        hinged: Option<&'a HingedPlate>,
        azimuth: Radians,
        waist_diameter: Mm,
        place: WorstPlace,
    ) -> Self {
        let opening = anatomy.defect.opening(face_of(valve));
        Self {
            anatomy,
            occluder,
            valve,
            hinged,
            azimuth,
            radial: radial(azimuth),
            place,
            plane: SectionPlane::across(opening, azimuth),
            waist_diameter,
            origin: opening.centre,
        }
    }

    /// The face the valve stands on.
    pub(crate) const fn face(&self) -> Face {
        face_of(self.valve)
    }

    /// The x of a point at a distance out of a face.
    pub(crate) fn x(&self, face: Face, out: Mm) -> Mm {
        match face {
            Face::Left => -out,
            Face::Right => self.anatomy.defect.wall + out,
        }
    }

    /// The y of a point of the wall.
    pub(crate) fn y(&self, point: Vec2) -> Mm {
        (point - self.origin).dot(self.radial)
    }

    /// How far a point of the wall lies beside the plane.
    pub(crate) fn aside(&self, point: Vec2) -> Mm {
        (point - self.origin).cross(self.radial)
    }

    /// A point in the frame of the valve's face, as it is seen square to the
    /// plane.
    pub(crate) fn seen(&self, point: Vec3) -> Point {
        let in_wall = Vec2::new(point.u, point.v);
        Point::new(self.x(self.face(), point.n), self.y(in_wall))
    }

    /// The lower and the upper edge of the hole on a face.
    pub(crate) fn edges(&self, face: Face) -> Option<[Mm; 2]> {
        self.plane.opening(self.anatomy.defect.opening(face))
    }

    /// A disc where the plane cuts it.
    pub(crate) fn disc(&self, face: Face) -> Vec<Point> {
        self.outline(&self.plane, face)
    }

    fn outline(&self, plane: &SectionPlane, face: Face) -> Vec<Point> {
        let wall = self.anatomy.defect.wall;
        points(&plane.disc(self.place.disc(face), wall, precision::outline()))
    }

    /// The full width of a disc, moved into the plane; nothing where its centre
    /// lies in it anyway.
    pub(crate) fn full_disc(&self, face: Face) -> Option<Vec<Point>> {
        let centre = self.place.disc(face).centre;
        let aside = self.aside(centre);
        if aside.abs() <= precision::outline().mm() {
            return None;
        }
        let own = SectionPlane::new(centre, self.azimuth);
        let up = self.y(centre);
        let outline = self.outline(&own, face);
        Some(
            outline
                .iter()
                .map(|point| Point::new(point.x, point.y + up))
                .collect(),
        )
    }

    /// The outflow tract of a face, where the plane runs along it: toward an
    /// arterial valve.
    pub(crate) fn tract(&self, face: Face) -> Option<&OutflowTract> {
        let tract = self.anatomy.tracts[face].as_ref();
        tract.filter(|_| !self.valve.is_atrioventricular())
    }

    /// The outline of the waist between the near sides of the discs; empty where
    /// the plane misses it.
    pub(crate) fn waist_outline(&self) -> Vec<Point> {
        let ends = Face::BOTH.map(|face| self.x(face, self.place.disc(face).stand_off));
        let outline = self
            .plane
            .waist(self.place.waist, self.waist_diameter, ends);
        points(&outline)
    }
}

/// Points of a section as points of a picture.
pub(crate) fn points(line: &[SectionPoint]) -> Vec<Point> {
    line.iter()
        .map(|point| Point::new(point.n, point.r))
        .collect()
}
