//! What is asked of a disc off its axis sees the side that hangs out farthest.

use geometry::{Face, Vec2};
use outside::sample::{as_read, even_discs, scenario, shipped_rules};
use sizing::{Size, State};

/// Stiff discs that hang 2 mm past a waist of 5 mm, the left one moved off the axis.
fn moved_by(offset: f64) -> Size {
    let mut size = even_discs(5.0, 3.0, 2.0, 1.0);
    if let Some(disc) = &mut size.occluder.discs[Face::Left] {
        disc.offset = Vec2::new(-offset, 0.0);
    }
    size
}

/// On the bundle lies the long side: 2 mm, and what the disc is off the axis.
#[test]
fn the_bundle_is_pressed_by_the_long_side() {
    for (offset, value, state) in [(0.0, 2.0, State::Ok), (1.5, 3.5, State::Caution)] {
        for turn in [0.0, 1.0, 3.0] {
            let size = moved_by(offset);
            let candidate = as_read(scenario("bundle"), shipped_rules(), &size, turn);
            let mut outcomes = candidate.outcomes.iter();
            let disc = outcomes.find(|one| one.check == "av_block_disc");
            let disc = disc.expect("a stiff disc beside the bundle");
            assert_eq!(
                (disc.value, disc.state),
                (Some(value), state),
                "{offset} {turn}"
            );
        }
    }
}
