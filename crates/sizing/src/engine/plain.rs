use super::{Counts, DrawSet, Engine, Question, RowShares};
use crate::draws::{Block, Draws};
use crate::measure::Situation;
use geometry::Seat;
use measurement::{BlockShares, Blocks};

/// The reference: plain f64, one check after another over a block.
#[derive(Clone, Copy, Debug, Default)]
pub struct Plain;

/// Weight in which something holds, by block.
type Held = [f64; Blocks::COUNT];

impl Engine for Plain {
    fn count(&self, question: &Question, draws: &Draws) -> Counts {
        let mut rows = vec![Tally::default(); question.rows.len()];
        let (mut no_stop, mut no_caution) = (Held::default(), Held::default());
        let mut all = Held::default();
        let mut holds = DrawSet::none(draws.len());
        let mut first = 0;
        for (index, block) in draws.blocks().enumerate() {
            let weight = |lane: usize| draws.weights().of(first + lane);
            let lanes = block.anatomies.len();
            let mut kept = vec![
                Kept {
                    stop: true,
                    caution: true
                };
                lanes
            ];
            for (row, tally) in verdicts(question, block) {
                let mine = &mut rows[row];
                for (lane, one) in tally.iter().enumerate() {
                    mine.stop[index] += if one.stop { weight(lane) } else { 0.0 };
                    mine.caution[index] += if one.caution { weight(lane) } else { 0.0 };
                    kept[lane].stop &= one.stop;
                    kept[lane].caution &= one.caution;
                }
            }
            for (lane, one) in kept.iter().enumerate() {
                all[index] += weight(lane);
                if one.stop {
                    no_stop[index] += weight(lane);
                    holds.insert(first + lane);
                }
                no_caution[index] += if one.stop && one.caution {
                    weight(lane)
                } else {
                    0.0
                };
            }
            first += lanes;
        }
        let shares = |held| BlockShares::from_weights(held, all);
        Counts {
            rows: question
                .rows
                .iter()
                .zip(rows)
                .map(|(row, held)| {
                    row.is_assessed().then(|| RowShares {
                        stop: shares(held.stop),
                        caution: shares(held.caution),
                    })
                })
                .collect(),
            no_stop: shares(no_stop),
            no_caution: shares(no_caution),
            holds,
        }
    }
}

#[derive(Clone, Default)]
struct Tally {
    stop: Held,
    caution: Held,
}

/// Whether the limits hold in one lane.
#[derive(Clone, Copy)]
struct Kept {
    stop: bool,
    caution: bool,
}

/// For each assessed row of a question, by its place, whether its limits hold in
/// each lane of a block.
fn verdicts<'a>(
    question: &'a Question,
    block: Block<'a>,
) -> impl Iterator<Item = (usize, Vec<Kept>)> + 'a {
    let size = question.size;
    let seats: Vec<Seat> = block
        .anatomies
        .iter()
        .zip(block.seats)
        .map(|(anatomy, draw)| {
            Seat::drawn(
                &size.occluder,
                &anatomy.defect,
                anatomy.left_slack_share,
                question.turn,
                draw,
            )
        })
        .collect();
    question
        .rows
        .iter()
        .enumerate()
        .filter(|(_, row)| row.is_assessed())
        .map(move |(place, row)| {
            let kept = block.anatomies.iter().zip(&seats).map(|(anatomy, seat)| {
                let value = row.measure.value(&Situation {
                    setting: question.setting,
                    size,
                    anatomy,
                    seat,
                });
                Kept {
                    stop: !row.stop.is_broken(value),
                    caution: !row.caution.is_broken(value),
                }
            });
            (place, kept.collect())
        })
}
