//! Marks as lines in a square of one, y downward: no face has them all.

use crate::Mark;

/// A part of a mark.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct MarkLine {
    pub(crate) points: &'static [[f64; 2]],
    pub(crate) is_closed: bool,
    /// Its width, as a share of the square.
    pub(crate) width: f64,
}

const fn line(points: &'static [[f64; 2]], is_closed: bool, width: f64) -> MarkLine {
    MarkLine {
        points,
        is_closed,
        width,
    }
}

/// The lines of a mark.
pub(crate) const fn lines(mark: Mark) -> &'static [MarkLine] {
    match mark {
        Mark::Ok => const { &[line(&[[0.1, 0.55], [0.4, 0.85], [0.9, 0.2]], false, 0.16)] },
        Mark::Warning => {
            const {
                &[
                    line(&[[0.5, 0.08], [0.95, 0.92], [0.05, 0.92]], true, 0.1),
                    line(&[[0.5, 0.36], [0.5, 0.64]], false, 0.13),
                    line(&[[0.5, 0.74], [0.5, 0.82]], false, 0.13),
                ]
            }
        }
        Mark::Beyond => {
            const {
                &[
                    line(&[[0.15, 0.15], [0.85, 0.85]], false, 0.2),
                    line(&[[0.85, 0.15], [0.15, 0.85]], false, 0.2),
                ]
            }
        }
        Mark::NotKnown => const { &[line(HOOK, false, 0.13), line(DOT, false, 0.13)] },
        Mark::Box => const { &[line(SQUARE, true, 0.08)] },
    }
}

/// A question mark: its hook and its dot.
const HOOK: &[[f64; 2]] = &[
    [0.22, 0.3],
    [0.36, 0.12],
    [0.64, 0.12],
    [0.78, 0.3],
    [0.5, 0.52],
    [0.5, 0.66],
];
const DOT: &[[f64; 2]] = &[[0.5, 0.82], [0.5, 0.92]];
const SQUARE: &[[f64; 2]] = &[[0.06, 0.06], [0.94, 0.06], [0.94, 0.94], [0.06, 0.94]];
