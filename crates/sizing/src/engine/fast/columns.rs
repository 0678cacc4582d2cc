use super::lanes::{LANES, Lane};
use crate::{Anatomy, ModelErrors, face_of};
use geometry::lip::{Arc, ArcSet, farthest_edge};
use geometry::{Ellipse, Face, HingedPlate, OutflowTract, PerFace, SeatDraw, Vec2, radial};
use measurement::{MPerS, ModelError, Valve};
use std::array::from_fn;
use std::f64::consts::TAU;

/// Up to [`LANES`] draws of one block, each number of them in a column: what is
/// the same for every size is laid out once.
///
/// A block of fewer draws leaves lanes over; they repeat the last draw and are
/// never counted.
#[derive(Debug)]
pub(super) struct Columns {
    /// Its first draw.
    pub(super) first: usize,
    /// How many of its lanes are draws.
    pub(super) lanes: usize,
    /// d_fit.
    pub(super) fit: Lane,
    /// The throat's semi-axes, and cosine and sine of its turn.
    pub(super) semi_major: Lane,
    pub(super) semi_minor: Lane,
    pub(super) throat_turn: [Lane; 2],
    /// T.
    pub(super) wall: Lane,
    /// The waist's place in its play, along and across, for semi-axes of 1.
    pub(super) play: [Lane; 2],
    /// The left and the right disc's share of the slack.
    pub(super) slack_shares: [Lane; 2],
    /// Each disc's tilt, as of a stiff shape.
    pub(super) tilts: [TiltColumns; 2],
    /// Cosine and sine of the turn beyond the one meant.
    pub(super) turn_error: [Lane; 2],
    pub(super) openings: PerFace<OpeningColumns>,
    pub(super) valves: [Option<ValveColumns>; 4],
    pub(super) tracts: [Option<TractColumns>; 2],
    pub(super) ventricles: [Option<Lane>; 2],
    pub(super) vein: Option<Lane>,
    pub(super) artery: Option<Lane>,
    /// What the model errors add to clearance of each face, and to lips; `None`: the
    /// model is right in every lane.
    pub(super) added: [Option<Added>; 3],
    /// What they multiply the gradient of each face by; `None` where that is 1 in all.
    pub(super) times: [Option<Lane>; 2],
}

/// Two bounds in `f32` of a number in each lane.
#[derive(Debug)]
pub(super) struct Added {
    pub(super) low: Lane,
    pub(super) high: Lane,
}

/// The tilt of one disc.
#[derive(Debug)]
pub(super) struct TiltColumns {
    pub(super) angle: Lane,
    /// The direction toward which the normal leans, in the wall.
    pub(super) toward: [Lane; 2],
}

/// An opening and its edge.
#[derive(Debug)]
pub(super) struct OpeningColumns {
    /// o, in the wall.
    pub(super) centre: [Lane; 2],
    /// Whether o is the throat's centre in every lane.
    pub(super) is_throat: bool,
    pub(super) semi_major: Lane,
    pub(super) semi_minor: Lane,
    /// Cosine and sine of the edge's turn.
    pub(super) turn: [Lane; 2],
    /// By part of the edge: the farthest it lies from o; not a number where the
    /// part is empty.
    pub(super) farthest: [Lane; 2],
    /// By part of the edge: its two arcs, or the halves of its only one.
    pub(super) arcs: [[ArcColumns; 2]; 2],
}

/// An arc of an edge, by eccentric anomaly.
#[derive(Debug)]
pub(super) struct ArcColumns {
    /// Cosine and sine of its start.
    pub(super) start: [Lane; 2],
    /// Its width in radians.
    pub(super) width: Lane,
}

/// A valve's annulus plate, seen from its hinge.
#[derive(Debug)]
pub(super) struct ValveColumns {
    pub(super) face: Face,
    /// r̂, in the wall.
    pub(super) radial: [Lane; 2],
    /// The hinge along r̂ and across, from the throat's centre.
    pub(super) hinge: [Lane; 2],
    /// sin λ and cos λ.
    pub(super) lean: [Lane; 2],
    /// Semi-axes away from the hinge and along its tangent.
    pub(super) semi_along: Lane,
    pub(super) semi_across: Lane,
    /// The inverse of sin λ and of both semi-axes.
    pub(super) per_sine: Lane,
    pub(super) per_along: Lane,
    pub(super) per_across: Lane,
    pub(super) sag: Lane,
    /// ρ(α): from the opening's centre to its edge below the hinge.
    pub(super) edge: Lane,
    pub(super) rim: Lane,
    /// Length of the leaflet; not a number where none was read.
    pub(super) leaflet: Lane,
}

/// An outflow tract.
#[derive(Debug)]
pub(super) struct TractColumns {
    /// ρ_t, and its inverse.
    pub(super) radius: Lane,
    pub(super) per_radius: Lane,
    /// The largest ρ_t of these lanes.
    pub(super) widest: f32,
    /// v1 after closure; not a number where none was read.
    pub(super) velocity: Lane,
}

/// Bounds of what a model error adds in each lane; `None` where that is 0 in all.
fn added<'a>(
    anatomy: &impl Fn(usize) -> &'a Anatomy,
    of: impl Fn(&ModelErrors) -> f64,
) -> Option<Added> {
    let value = |lane: usize| of(&anatomy(lane).errors);
    let is_wrong = (0..LANES).any(|lane| value(lane) != 0.0);
    is_wrong.then(|| Added {
        low: from_fn(|lane| (value(lane) as f32).next_down()),
        high: from_fn(|lane| (value(lane) as f32).next_up()),
    })
}

impl Columns {
    /// Draws of one block, counted from `first`; at least one, at most [`LANES`].
    pub(super) fn new(first: usize, anatomies: &[Anatomy], seats: &[SeatDraw]) -> Self {
        let last = anatomies.len() - 1;
        let anatomy = |lane: usize| &anatomies[lane.min(last)];
        let seat = |lane: usize| &seats[lane.min(last)];
        let of = |value: &dyn Fn(&Anatomy) -> f64| column(|lane| value(anatomy(lane)));
        let of_seat = |value: &dyn Fn(&SeatDraw) -> f64| column(|lane| value(seat(lane)));
        let (turn_sin, turn_cos) = angle(|lane| anatomy(lane).defect.narrowest.rotation);
        let (play_sin, play_cos) = angle(|lane| TAU * seat(lane).play_angle);
        let (error_sin, error_cos) = angle(|lane| seat(lane).rotation_error);
        let out = |lane: usize| seat(lane).play_radius.sqrt() as f32;
        let left_share = |lane: usize| anatomy(lane).left_slack_share * seat(lane).split;
        Self {
            added: [
                added(&anatomy, |errors| errors.clearance(Face::Left)),
                added(&anatomy, |errors| errors.clearance(Face::Right)),
                added(&anatomy, |errors| errors.of(ModelError::RimOverlap)),
            ],
            times: Face::BOTH.map(|face| {
                let value = |lane: usize| anatomy(lane).errors.gradient(face) as f32;
                let is_wrong = (0..LANES).any(|lane| value(lane) != 1.0);
                is_wrong.then(|| from_fn(value))
            }),
            first,
            lanes: anatomies.len(),
            fit: of(&|anatomy| anatomy.defect.fit_diameter()),
            semi_major: of(&|anatomy| anatomy.defect.narrowest.semi_major),
            semi_minor: of(&|anatomy| anatomy.defect.narrowest.semi_minor),
            throat_turn: [turn_cos, turn_sin],
            wall: of(&|anatomy| anatomy.defect.wall),
            play: [
                from_fn(|lane| out(lane) * play_cos[lane]),
                from_fn(|lane| out(lane) * play_sin[lane]),
            ],
            slack_shares: [column(left_share), column(|lane| 1.0 - left_share(lane))],
            tilts: Face::BOTH.map(|disc| {
                let (sin, cos) = angle(|lane| seat(lane).tilt_direction[disc]);
                TiltColumns {
                    angle: of_seat(&|seat| seat.tilt_angle[disc]),
                    toward: [cos, sin],
                }
            }),
            turn_error: [error_cos, error_sin],
            openings: PerFace::of(|face| OpeningColumns::new(face, anatomy)),
            valves: Valve::ALL.map(|valve| ValveColumns::new(valve, anatomy)),
            tracts: Face::BOTH.map(|face| TractColumns::new(face, anatomy)),
            ventricles: Face::BOTH.map(|side| {
                anatomy(0).ventricles[side]
                    .map(|_| of(&|anatomy| anatomy.ventricles[side].unwrap_or(f64::NAN)))
            }),
            vein: anatomy(0)
                .vein
                .map(|_| of(&|anatomy| anatomy.vein.unwrap_or(f64::NAN))),
            artery: anatomy(0)
                .artery
                .map(|_| of(&|anatomy| anatomy.artery.unwrap_or(f64::NAN))),
        }
    }
}

impl OpeningColumns {
    fn new<'a>(face: Face, anatomy: impl Fn(usize) -> &'a Anatomy) -> Self {
        let opening = |lane| anatomy(lane).defect.opening(face);
        let edge = |lane| &opening(lane).edge;
        let parts = |lane| {
            let at_hinge = anatomy(lane).hinge_arcs[face];
            [at_hinge, at_hinge.complement()]
        };
        let (sin, cos) = angle(|lane| edge(lane).rotation);
        Self {
            centre: [
                column(|lane| opening(lane).centre.u),
                column(|lane| opening(lane).centre.v),
            ],
            is_throat: (0..LANES).all(|lane| opening(lane).centre == Vec2::ZERO),
            semi_major: column(|lane| edge(lane).semi_major),
            semi_minor: column(|lane| edge(lane).semi_minor),
            turn: [cos, sin],
            farthest: [0, 1].map(|part| {
                column(|lane| farthest_edge(edge(lane), &parts(lane)[part]).unwrap_or(f64::NAN))
            }),
            arcs: [0, 1].map(|part| ArcColumns::pair(|lane| (edge(lane), parts(lane)[part]))),
        }
    }
}

impl ArcColumns {
    fn pair<'a>(of: impl Fn(usize) -> (&'a Ellipse, ArcSet)) -> [Self; 2] {
        let both: [[Anomalies; 2]; LANES] = from_fn(|lane| {
            let (edge, arcs) = of(lane);
            let mut arcs = arcs.arcs().map(|arc| Anomalies::of(edge, &arc));
            match (arcs.next(), arcs.next()) {
                (Some(one), Some(other)) => [one, other],
                (Some(only), None) | (None, Some(only)) => only.halves(),
                (None, None) => [Anomalies::NONE; 2],
            }
        });
        [0, 1].map(|which| {
            let (sin, cos) = angle(|lane| both[lane][which].start);
            Self {
                start: [cos, sin],
                width: column(|lane| both[lane][which].width),
            }
        })
    }
}

/// An arc's eccentric anomalies.
#[derive(Clone, Copy)]
struct Anomalies {
    start: f64,
    width: f64,
}

impl Anomalies {
    const NONE: Self = Self {
        start: f64::NAN,
        width: f64::NAN,
    };

    const fn halves(self) -> [Self; 2] {
        let width = 0.5 * self.width;
        let start = self.start + width;
        [Self { width, ..self }, Self { start, width }]
    }

    /// An azimuth φ from the major axis has the anomaly atan2(a sin φ, b cos φ).
    fn of(edge: &Ellipse, arc: &Arc) -> Self {
        let anomaly = |azimuth: f64| {
            let toward = radial(azimuth - edge.rotation);
            libm::atan2(edge.semi_major * toward.v, edge.semi_minor * toward.u)
        };
        let start = anomaly(arc.start);
        let width = (anomaly(arc.end()) - start).rem_euclid(TAU);
        // A whole turn, less or more by rounding, is not nothing; an anomaly is
        // never half a turn from its azimuth.
        let missing = ((arc.width - width) / TAU).round();
        Self {
            start,
            width: (width + TAU * missing).max(0.0),
        }
    }
}

impl ValveColumns {
    fn new<'a>(valve: Valve, anatomy: impl Fn(usize) -> &'a Anatomy) -> Option<Self> {
        anatomy(0).valves[valve].as_ref()?;
        anatomy(0).azimuths[valve]?;
        let plate = |lane: usize| anatomy(lane).valves[valve].as_ref();
        let of = |value: &dyn Fn(&HingedPlate) -> f64| {
            column(|lane| plate(lane).map_or(f64::NAN, value))
        };
        let face = face_of(valve);
        let azimuth = |lane: usize| anatomy(lane).azimuths[valve].unwrap_or(f64::NAN);
        Some(Self {
            face,
            radial: [of(&|plate| plate.radial().u), of(&|plate| plate.radial().v)],
            hinge: [
                of(&|plate| plate.radial().dot(plate.hinge())),
                of(&|plate| plate.radial().cross(plate.hinge())),
            ],
            // d̂ = cos λ r̂ + sin λ out of the wall.
            lean: [
                of(&|plate| plate.plate().first.n),
                of(&|plate| {
                    let first = plate.plate().first;
                    plate.radial().u * first.u + plate.radial().v * first.v
                }),
            ],
            semi_along: of(&|plate| plate.plate().semi_first),
            semi_across: of(&|plate| plate.plate().semi_second),
            per_sine: of(&|plate| 1.0 / plate.plate().first.n),
            per_along: of(&|plate| 1.0 / plate.plate().semi_first),
            per_across: of(&|plate| 1.0 / plate.plate().semi_second),
            sag: of(&HingedPlate::cusp_depth),
            edge: column(|lane| {
                let edge = anatomy(lane).defect.opening(face).edge;
                edge.polar_radius(azimuth(lane))
            }),
            rim: column(|lane| anatomy(lane).rims[valve].unwrap_or(f64::NAN)),
            leaflet: column(|lane| anatomy(lane).leaflets[valve].unwrap_or(f64::NAN)),
        })
    }
}

impl TractColumns {
    fn new<'a>(face: Face, anatomy: impl Fn(usize) -> &'a Anatomy) -> Option<Self> {
        anatomy(0).tracts[face]?;
        let tract = |lane: usize| anatomy(lane).tracts[face];
        let radius = |lane: usize| {
            tract(lane)
                .as_ref()
                .map_or(f64::NAN, OutflowTract::effective_radius)
        };
        Some(Self {
            radius: column(radius),
            per_radius: column(|lane| 1.0 / radius(lane)),
            widest: column(radius).into_iter().fold(0.0, f32::max),
            velocity: column(|lane| {
                anatomy(lane).velocities_after[face].map_or(f64::NAN, MPerS::value)
            }),
        })
    }
}

fn column(value: impl Fn(usize) -> f64) -> Lane {
    from_fn(|lane| value(lane) as f32)
}

/// Sine and cosine of an angle.
fn angle(value: impl Fn(usize) -> f64) -> (Lane, Lane) {
    let both: [(f64, f64); LANES] = from_fn(|lane| libm::sincos(value(lane)));
    (
        from_fn(|lane| both[lane].0 as f32),
        from_fn(|lane| both[lane].1 as f32),
    )
}
