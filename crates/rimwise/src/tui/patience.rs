use session::{Event, Session};
use std::time::{Duration, Instant};

/// How long something has been worked out without a result and without a word.
///
/// Keys do not begin it anew: results of before the change do not look new however
/// fast changes follow each other.
#[derive(Debug, Default)]
pub(super) struct Patience {
    since: Option<Instant>,
}

/// How long work goes on before it is said to be going on: less is not noticed.
const UNNOTICED: Duration = Duration::from_millis(150);

impl Patience {
    /// How long until it is to be said; `None` where there is nothing to say, or it
    /// is said. What is to be said now, or no more.
    pub(super) fn rest(
        &mut self,
        session: &Session,
        now: Instant,
    ) -> (Option<Duration>, Option<Event>) {
        if !session.is_working() {
            self.since = None;
            return (None, Some(Event::Working(false)));
        }
        if session.says_it_works() {
            return (None, None);
        }
        let since = self.since.get_or_insert(now);
        let rest = UNNOTICED.saturating_sub(now.saturating_duration_since(*since));
        (Some(rest), rest.is_zero().then_some(Event::Working(true)))
    }

    /// A result came: it begins anew.
    pub(super) const fn heard(&mut self) {
        self.since = None;
    }
}
