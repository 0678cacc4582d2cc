//! `rimwise manual` and `rimwise completions`: what is said of the program, from
//! what it takes and from the table of its commands.

use super::args::{Arguments, CompletionsArguments, ManualArguments, ManualFormat, examples};
use anyhow::Result;
use clap::CommandFactory;
use clap_mangen::Man;
use clap_mangen::roff::{Roff, bold, roman};
use paper::CAUTION;
use session::Command;
use std::io::Write;

/// Prints the manual.
pub(super) fn run(asked: &ManualArguments, out: &mut dyn Write) -> Result<()> {
    match asked.format {
        ManualFormat::Man => man(out),
        ManualFormat::Keys => Ok(out.write_all(keys().as_bytes())?),
    }
}

/// Prints the completions of a shell.
pub(super) fn completions(asked: &CompletionsArguments, out: &mut dyn Write) -> Result<()> {
    let mut text = Vec::new();
    clap_complete::generate(asked.shell, &mut Arguments::command(), NAME, &mut text);
    Ok(out.write_all(&text)?)
}

/// The name of the program.
const NAME: &str = env!("CARGO_PKG_NAME");

fn man(out: &mut dyn Write) -> Result<()> {
    let mut program = Arguments::command();
    program.build();
    let calls: Vec<clap::Command> = program.get_subcommands().cloned().collect();
    let man = Man::new(program);
    man.render_title(out)?;
    man.render_name_section(out)?;
    man.render_synopsis_section(out)?;
    man.render_description_section(out)?;
    man.render_options_section(out)?;
    let mut rest = Roff::new();
    rest.control("SH", ["COMMANDS"]);
    rest.to_writer(out)?;
    for call in calls.into_iter().filter(|call| call.get_name() != "help") {
        let mut head = Roff::new();
        head.control("SS", [format!("{NAME} {}", call.get_name()).as_str()]);
        let about = call.get_about().map(ToString::to_string);
        head.text([roman(about.unwrap_or_default())]);
        head.to_writer(out)?;
        let call = Man::new(call);
        call.render_options_section(out)?;
    }
    let mut rest = Roff::new();
    rest.control("SH", ["KEYS"]);
    rest.text([roman(
        "In the screen, as they are before a file with other keys. A key without a panel counts \
         everywhere.",
    )]);
    for command in Command::all() {
        rest.control("TP", []);
        rest.text([bold(command.keys.join(", "))]);
        rest.text([roman(format!("{}{}", command.says, within(command)))]);
    }
    rest.control("SH", ["FILES"]);
    for (file, says) in FILES {
        rest.control("TP", []);
        rest.text([bold(*file)]);
        rest.text([roman(*says)]);
    }
    rest.control("SH", ["EXAMPLES"]);
    for examples in [
        examples::COMPARE,
        examples::DRAW,
        examples::SHEET,
        examples::LESSON,
    ] {
        rest.control("nf", []);
        rest.text([roman(examples)]);
        rest.control("fi", []);
        rest.control("sp", []);
    }
    licences(&mut rest);
    rest.control("SH", ["CAUTION"]);
    rest.text([roman(CAUTION)]);
    rest.to_writer(out)?;
    Ok(())
}

/// The user's own files, as the manual tells them.
const FILES: &[(&str, &str)] = &[
    (
        "$XDG_CONFIG_HOME/rimwise/keys.ron",
        "other keys: a map of commands, by the names in the table of keys, to lists of keys",
    ),
    (
        "$XDG_CONFIG_HOME/rimwise/shapes.ron",
        "shapes of your own, and what is not in stock today, laid over the shipped catalogue",
    ),
    (
        "$XDG_STATE_HOME/rimwise/recent.ron",
        "cases that were open; it may be deleted",
    ),
    (
        "$XDG_STATE_HOME/rimwise/unfiled/",
        "cases in no file yet that were not saved; the next start offers them",
    ),
    (
        ".CASE.rimwise-journal",
        "beside a case: changes that were made and not saved; the next start offers them",
    ),
];

/// What the program is made of, as its page says: a paragraph over a list.
const LICENCES: &str = include_str!("../../../../docs/licences.md");

/// The licences of the program, of its face and of every crate in it.
fn licences(rest: &mut Roff) {
    rest.control("SH", ["LICENCES"]);
    let mut lines = LICENCES.lines().filter(|line| !line.is_empty()).skip(1);
    rest.text([roman(lines.next().unwrap_or_default().replace('`', ""))]);
    let crates: Vec<&str> = lines.map(|line| line.trim_start_matches("- ")).collect();
    rest.control("PP", []);
    rest.text([roman(crates.join("; "))]);
}

/// The table of keys in Markdown: name, keys, what it does.
fn keys() -> String {
    let mut table = String::from("| command | keys | what it does |\n|---|---|---|\n");
    for command in Command::all() {
        let keys: Vec<String> = command.keys.iter().map(|key| format!("`{key}`")).collect();
        let row = format!(
            "| `{}` | {} | {}{} |\n",
            command.id,
            keys.join(" "),
            command.says,
            within(command)
        );
        table.push_str(&row);
    }
    table
}

/// In which panels a command's keys count, where not everywhere.
fn within(command: &Command) -> String {
    match command.panel_names() {
        everywhere if everywhere.is_empty() => everywhere,
        panels => format!(" (in: {panels})"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const KEYS: &str = include_str!("../../../../docs/keys.md");

    #[test]
    fn the_page_of_keys_has_every_key() {
        assert!(
            KEYS.contains(&keys()),
            "put this into docs/keys.md (rimwise manual --format keys):\n{}",
            keys()
        );
    }

    #[test]
    fn the_manual_tells_every_call_every_key_and_the_caution() {
        let mut text = Vec::new();
        man(&mut text).unwrap();
        // Roff writes a hyphen and the beginning of a line in its own way.
        let text = String::from_utf8(text)
            .unwrap()
            .replace(r"\-", "-")
            .replace(r"\*(Aq", "'");
        for call in Arguments::command().get_subcommands() {
            assert!(
                text.contains(&format!("rimwise {}", call.get_name())),
                "{}",
                call.get_name()
            );
        }
        for command in Command::all() {
            assert!(text.contains(command.says), "{command:?}");
        }
        assert!(text.contains("Open Font License") && text.contains("ratatui 0."));
        assert!(text.contains(CAUTION));
    }

    #[test]
    fn every_shell_has_completions() {
        use clap::ValueEnum;
        for shell in clap_complete::Shell::value_variants() {
            let mut text = Vec::new();
            completions(&CompletionsArguments { shell: *shell }, &mut text).unwrap();
            let text = String::from_utf8(text).unwrap();
            assert!(
                text.contains("fit-map") && text.contains("workup"),
                "{shell}"
            );
        }
    }
}
