use crate::Session;
use crate::{Command, Focus, Page};

/// What a pointer does.
impl Session {
    /// Selects a candidate of the ranked list by its place on the shelf, as a
    /// pointer does.
    pub(crate) fn select_candidate(&mut self, place: usize) {
        self.model.history.close();
        self.model.view.ranked = Some(place);
        self.model.view.focus = Focus::Ranking;
    }

    /// Moves the selection of a panel by one line, as a wheel does.
    pub(crate) fn wheel(&mut self, focus: Focus, down: bool) {
        if focus == Focus::Bays {
            return;
        }
        self.model.history.close();
        self.model.view.focus = focus;
        let command = Command::named(if down { "down" } else { "up" });
        if let Some(Ok(change)) = command.map(|it| (it.change)(self)) {
            self.model.status = None;
            // Moving a selection is never refused once it can be done.
            let _ = self.perform(change);
        }
    }

    /// Shows a page, as a pointer does.
    pub(crate) fn select_page(&mut self, page: Page) {
        self.run(page.command());
    }

    /// Selects a line of a panel's list, or a bay, as a pointer does.
    pub(crate) fn select_line(&mut self, panel: Focus, line: usize) {
        self.select_panel(panel);
        let last = self.lines(panel).saturating_sub(1);
        let line = line.min(last);
        match panel {
            Focus::Before | Focus::Trials | Focus::FollowUp => {
                let row = self.trial_rows(panel).into_iter().nth(line);
                self.model.view.pick = None;
                self.model.view.select_trial_row(panel, row);
            }
            _ => self.model.view.selected[panel] = line,
        }
    }

    /// Gives the keys to a panel.
    pub(crate) const fn select_panel(&mut self, panel: Focus) {
        self.model.history.close();
        match panel {
            Focus::Readings => self.model.view.show_readings(),
            _ => self.model.view.focus = panel,
        }
    }

    /// Reads the fit map at a cell.
    pub(crate) const fn select_cell(&mut self, column: usize, row: usize) {
        self.model.history.close();
        self.model.view.focus = Focus::FitMap;
        self.model.view.cell = Some((column, row));
    }

    /// Nudges the selected reading by fine steps, under 0 down: one step to undo with
    /// those before it.
    pub(crate) fn nudge_by(&mut self, steps: i32) {
        for _ in 0..steps.unsigned_abs() {
            self.run(if steps > 0 { "more" } else { "less" });
        }
    }
}
