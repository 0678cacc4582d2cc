//! A call of the program, and what came of it.

#![expect(clippy::expect_used, reason = "what fails here fails a test")]

use serde_json::Value;
use std::path::Path;
use std::process::{Command, Output};

/// A call of the program where the user has no files of their own.
pub(crate) struct Call(Command);

impl Call {
    /// The program with these arguments.
    pub(crate) fn of(arguments: &[&str]) -> Self {
        let mut command = Command::new(env!("CARGO_BIN_EXE_rimwise"));
        command
            .env("LC_ALL", "C.UTF-8")
            .env("TERM", "xterm")
            .env("XDG_CONFIG_HOME", "/nowhere")
            .args(arguments);
        Self(command)
    }

    /// The same with more arguments.
    pub(crate) fn and(mut self, arguments: &[&str]) -> Self {
        self.0.args(arguments);
        self
    }

    /// The same with few draws: for tests about form, not about figures.
    pub(crate) fn few_draws(self) -> Self {
        self.and(&["--draws", "64"])
    }

    /// The same from within a folder.
    pub(crate) fn within(mut self, folder: &Path) -> Self {
        self.0.current_dir(folder);
        self
    }

    /// The same with a folder of settings.
    pub(crate) fn settings(mut self, folder: &Path) -> Self {
        self.0.env("XDG_CONFIG_HOME", folder);
        self
    }

    /// What the program printed and how it ended.
    pub(crate) fn output(mut self) -> Output {
        self.0.output().expect("the program starts")
    }

    /// What it printed; it ended well.
    pub(crate) fn text(self) -> String {
        let output = self.output();
        assert_eq!(output.status.code(), Some(0), "{}", complaint(&output));
        printed(&output)
    }

    /// The JSON that it printed; it ended well.
    pub(crate) fn json(self) -> Value {
        serde_json::from_str(&self.text()).expect("JSON")
    }

    /// What it says of a call or a file that it refuses; nothing is printed.
    pub(crate) fn refused(self) -> String {
        let output = self.output();
        assert_eq!(output.status.code(), Some(2), "{}", complaint(&output));
        assert!(output.stdout.is_empty(), "{}", printed(&output));
        complaint(&output)
    }
}

/// What a call of the program printed and how it ended.
pub(crate) fn rimwise(arguments: &[&str]) -> Output {
    Call::of(arguments).output()
}

/// What a call of the program that ended well printed.
pub(crate) fn text(arguments: &[&str]) -> String {
    Call::of(arguments).text()
}

/// The JSON that a call of the program that ended well printed.
pub(crate) fn json(arguments: &[&str]) -> Value {
    Call::of(arguments).json()
}

/// What was printed.
pub(crate) fn printed(output: &Output) -> String {
    String::from_utf8(output.stdout.clone()).expect("UTF-8")
}

/// What was complained of.
pub(crate) fn complaint(output: &Output) -> String {
    String::from_utf8(output.stderr.clone()).expect("UTF-8")
}
