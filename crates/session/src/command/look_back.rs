//! The command that looks back over a folder of cases.

use super::{Change, Command};
use crate::{Focus, Refused};
use std::path::{Path, PathBuf};

pub(super) const COMMANDS: &[Command] = &[Command {
    id: "look_back",
    name: "look back",
    says: "look back over the cases of this folder: foretold against seen, and rows for your centre's rules",
    focus: &[Focus::Rules, Focus::FollowUp],
    keys: &["B"],
    in_footer: true,
    change: |session| {
        let file = session.document().home().file();
        let file = file.ok_or(Refused::NoFolderOfCases)?;
        Ok(Change::LookBack(folder_of(file)))
    },
}];

fn folder_of(file: &Path) -> PathBuf {
    let folder = file.parent();
    let folder = folder.filter(|folder| !folder.as_os_str().is_empty());
    folder.unwrap_or(Path::new(".")).to_owned()
}
