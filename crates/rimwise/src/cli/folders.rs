//! Where a user's own files of the program are, as the XDG base directory
//! specification has it (0.8).

use std::env::var_os;
use std::path::PathBuf;

/// Where settings are: `rimwise` in the directory for settings.
pub(super) fn settings() -> Option<PathBuf> {
    of("XDG_CONFIG_HOME", ".config")
}

/// Where what outlives a run is: recent cases, cases in no file yet.
pub(super) fn state() -> Option<PathBuf> {
    of("XDG_STATE_HOME", ".local/state")
}

/// The program's folder where a variable says, if it says so with a whole path,
/// or else in the home folder.
fn of(variable: &str, in_home: &str) -> Option<PathBuf> {
    let said = var_os(variable).map(PathBuf::from);
    let folder = said.filter(|path| path.is_absolute()).or_else(|| {
        let home = ["HOME", "USERPROFILE"].iter().find_map(var_os);
        let home = home.map(PathBuf::from).filter(|path| path.is_absolute())?;
        Some(home.join(in_home))
    })?;
    Some(folder.join("rimwise"))
}
