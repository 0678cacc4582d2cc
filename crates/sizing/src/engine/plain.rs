use super::{Counter, Counts, DrawSet, Engine, Question, RowShares};
use crate::measure::Situation;
use crate::{Anatomy, Draws};
use geometry::{Seat, SeatDraw};
use measurement::{BlockShares, Blocks};
use std::ops::Range;

/// The reference: plain f64, one check after another over a block.
#[derive(Clone, Copy, Debug, Default)]
pub struct Plain;

/// Weight in which something holds, by block.
type Held = [f64; Blocks::COUNT];

/// Draws with every anatomy laid out, for a reference that goes through them again and
/// again.
#[derive(Debug)]
struct LaidOut {
    draws: Draws,
    anatomies: Vec<Anatomy>,
    seats: Vec<SeatDraw>,
}

impl Engine for Plain {
    fn prepare(&self, draws: Draws) -> Box<dyn Counter> {
        let (mut anatomies, mut seats) = (Vec::new(), Vec::new());
        for block in draws.block_ranges() {
            let piece = draws.piece(block.clone());
            anatomies.extend(block.clone().map(|draw| piece.anatomy(draw)));
            seats.extend(block.map(|draw| piece.seat(draw)));
        }
        Box::new(LaidOut {
            draws,
            anatomies,
            seats,
        })
    }
}

impl Counter for LaidOut {
    fn draws(&self) -> &Draws {
        &self.draws
    }

    fn count(&self, question: &Question) -> Counts {
        let draws = &self.draws;
        let mut rows = vec![Tally::default(); question.rows.len()];
        let (mut no_stop, mut no_caution) = (Held::default(), Held::default());
        let mut all = Held::default();
        let mut holds = DrawSet::none(draws.len());
        for (index, block) in draws.block_ranges().enumerate() {
            let first = block.start;
            let weight = |lane: usize| draws.weights().of(first + lane);
            let lanes = block.len();
            let mut kept = vec![
                Kept {
                    stop: true,
                    caution: true
                };
                lanes
            ];
            for (row, tally) in self.verdicts(question, block) {
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

impl LaidOut {
    /// For each assessed row of a question, by its index, whether its limits hold in
    /// each draw of a block.
    fn verdicts<'a>(
        &'a self,
        question: &'a Question,
        block: Range<usize>,
    ) -> impl Iterator<Item = (usize, Vec<Kept>)> + 'a {
        let size = question.size;
        let anatomies = &self.anatomies[block.clone()];
        let seats: Vec<Seat> = anatomies
            .iter()
            .zip(&self.seats[block])
            .map(|(anatomy, draw)| question.seat(anatomy, draw))
            .collect();
        let assessed = question.rows.iter().enumerate();
        assessed
            .filter(|(_, row)| row.is_assessed())
            .map(move |(index, row)| {
                let kept = anatomies.iter().zip(&seats).map(|(anatomy, seat)| {
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
                (index, kept.collect())
            })
    }
}
