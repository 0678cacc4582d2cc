//! What an observer sees of a truth, by the law of the rules.

use crate::stream::Stream;
use measurement::normal;
use measurement::observation::{Range, ValueLaw};

/// What an observer of a law says of a value.
pub fn observed(law: &ValueLaw, truth: f64, stream: &mut Stream) -> f64 {
    let [choice, uniform, chance] = [stream.number(), stream.number(), stream.number()];
    let is_cut = law.range == Range::AtLeastZero;
    if is_cut && choice < 0.5 * law.wrong {
        0.0
    } else if choice < law.wrong {
        law.room * uniform
    } else {
        let seen = truth + law.spread(truth) * normal::quantile(chance);
        if is_cut { seen.max(0.0) } else { seen }
    }
}
