//! Files that a user can edit.

mod bad_files;
mod format_1;
mod left_by_0_1;
