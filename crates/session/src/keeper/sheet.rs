use super::events::Events;
use super::{Keeper, choose, questions, shown, told};
use crate::errand::SheetFile;
use crate::event::FileEvent;
use crate::overlay::Prompt;
use crate::{Home, KeeperError, Session};
use files::{new_case, parse_case, shipped, write_out};
use sizing::Case;

impl Keeper {
    /// Writes the bytes of a sheet into the file that was asked for, and lets the
    /// session know what came of it. Over a file that is there it is written only
    /// where the operator said so. Err: why it is not written.
    pub fn write_sheet(
        &self,
        session: &mut Session,
        asked: &SheetFile,
        made: Result<Vec<u8>, KeeperError>,
    ) -> Result<(), String> {
        let mut events = Events::default();
        let path = choose::meant(&asked.to);
        let written = made.and_then(|bytes| {
            write_out(&self.disk, &path, &bytes, asked.over).map_err(KeeperError::Store)
        });
        let why = written.as_ref().map_err(ToString::to_string).copied();
        match written {
            Ok(()) => events.tell(format!("sheet written: {}", shown(&path))),
            Err(error) => match questions::over_sheet(&error, asked) {
                Some(question) => events.ask(question),
                None if matches!(error, KeeperError::NoSheet(_)) => events.warn(error),
                None => events.push(FileEvent::PathRefused {
                    prompt: Prompt::SheetTo,
                    path,
                    error,
                }),
            },
        }
        told(session, events);
        why
    }

    /// The text of the open case as a save would write it: what a sheet names by its
    /// digest. A case that came with the program and is as it came has the text with
    /// which it came.
    pub fn case_text(&self, session: &Session) -> String {
        let case = session.document().case();
        let home = session.document().home();
        if let Some(kept) = &self.kept
            && self.keeps(home)
            && let Ok(file) = kept.file.with(case)
        {
            return file.source().original().into_owned();
        }
        let came = (*home == Home::Shipped).then(|| text_it_came_with(case));
        came.flatten().map_or_else(|| new_case(case), str::to_owned)
    }
}

fn text_it_came_with(case: &Case) -> Option<&'static str> {
    let mut scenarios = shipped::SCENARIOS.iter();
    let is_it = |(name, text): &&(&'static str, &'static str)| {
        parse_case(name, text).is_ok_and(|file| file.value() == case)
    };
    scenarios.find(is_it).map(|(_, text)| *text)
}
