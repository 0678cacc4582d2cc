//! Pictures and their colours.

mod colours;
