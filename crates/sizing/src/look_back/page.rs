//! A look-back as lines for people, the same on paper and on a screen.

use super::{AnswerRow, FEWEST_ANSWERS, HOW_IT_COUNTS, LookBack};

/// The most columns of a line.
const WIDTH: usize = 80;

impl LookBack {
    /// Everything it says but what it proposes, in lines of at most 80 columns.
    pub fn page(&self) -> Vec<String> {
        let mut lines = wrapped(&format!("{}.", self.counts()));
        lines.push(String::new());
        lines.extend(self.headline().iter().flat_map(|says| wrapped(says)));
        lines.push(String::new());
        lines.extend(HOW_IT_COUNTS.iter().flat_map(|says| wrapped(says)));
        self.answers_page(&mut lines);
        self.reliability_page(&mut lines);
        self.readings_page(&mut lines);
        self.values_page(&mut lines);
        lines
    }

    fn answers_page(&self, lines: &mut Vec<String>) {
        lines.extend(["", "Foretold as yes or no"].map(str::to_owned));
        if self.answers.is_empty() {
            lines.push("  nothing that was foretold was seen".to_owned());
            return;
        }
        lines.push(format!(
            "  {:<36} {:>4} {:>8}  {:<20} {:>5}",
            "", "n", "foretold", "seen (95 of 100)", "Z"
        ));
        for row in self.answers.iter().chain(&self.all) {
            let (label, pairs) = (row.label(), row.pairs.pairs);
            if row.is_judged() {
                let foretold = format!("{:.0} %", 100.0 * row.pairs.foretold);
                let z = z(row).map_or_else(String::new, |z| format!("{z:.1}"));
                let seen = row.seen();
                let line = format!("  {label:<36} {pairs:>4} {foretold:>8}  {seen:<20} {z:>5}");
                lines.push(line.trim_end().to_owned());
            } else {
                lines.push(format!(
                    "  {label:<36} {pairs:>4} too few to judge (under {FEWEST_ANSWERS})"
                ));
            }
        }
        lines.push("  Z beyond -1.96 or 1.96: chances and what was seen do not agree.".to_owned());
        if let Some(score) = self.all.as_ref().and_then(|row| row.score) {
            let [low, high] = score.brier_interval;
            lines.push(format!(
                "  Brier's score {:.3} ({low:.3} to {high:.3}); 0 is best, 0.25 a coin's.",
                score.brier
            ));
        }
    }

    fn reliability_page(&self, lines: &mut Vec<String>) {
        let Some(all) = &self.all else { return };
        if all.reliability.is_empty() {
            return;
        }
        lines.extend(["", "Like chances together"].map(str::to_owned));
        lines.push(format!("  {:>8} {:>5}  seen (95 of 100)", "foretold", "n"));
        for bin in &all.reliability {
            let percent = |share: f64| format!("{:.0} %", 100.0 * share);
            let share = percent(bin.seen as f64 / bin.pairs as f64);
            let [low, high] = bin.interval.map(percent);
            lines.push(format!(
                "  {:>8} {:>5}  {share} ({low} to {high})",
                percent(bin.foretold),
                bin.pairs
            ));
        }
    }

    fn readings_page(&self, lines: &mut Vec<String>) {
        if self.readings.is_empty() {
            return;
        }
        lines.push(String::new());
        lines.push("Readings against what was seen (first deployment of each case)".to_owned());
        for row in &self.readings {
            lines.push(format!("  {}, n {}", row.of.label(), row.pairs));
            lines.push(format!("    {}", row.says()));
            let bounds = row.bounds_say();
            if !bounds.is_empty() {
                lines.push(format!("    {bounds}, and count as bounds"));
            }
        }
    }

    fn values_page(&self, lines: &mut Vec<String>) {
        if self.values.is_empty() {
            return;
        }
        lines.push(String::new());
        lines.push("Values among the twentieths of what was foretold; even is best".to_owned());
        for row in &self.values {
            lines.push(format!("  {}, n {}", row.label(), row.pairs));
            lines.push(match row.twentieths {
                Some(all) => format!("    {}", all.map(|count| count.to_string()).join(" ")),
                None => "    too few to show (under 100)".to_owned(),
            });
        }
    }
}

fn z(row: &AnswerRow) -> Option<f64> {
    row.score.and_then(|score| score.z)
}

fn wrapped(text: &str) -> Vec<String> {
    let mut lines = vec![String::new()];
    for word in text.split(' ') {
        let last = lines.len() - 1;
        let used = lines[last].chars().count();
        if used > 0 && used + 1 + word.chars().count() > WIDTH {
            lines.push(word.to_owned());
        } else {
            if used > 0 {
                lines[last].push(' ');
            }
            lines[last].push_str(word);
        }
    }
    lines
}
