//! The help of the program: its commands under headings. The parser has one heading
//! for all of them, so the list is written into its template.

use super::{Arguments, WIDTH};
use crate::text::wrapped;
use clap::CommandFactory;
use std::fmt::Write;

/// What the program is used for, with the commands that serve it.
const HEADINGS: [(&str, &[&str]); 5] = [
    (
        "Before",
        &["workup", "rank", "compare", "fit-map", "draw", "sheet"],
    ),
    ("In the catheter laboratory", &["criteria", "trials"]),
    ("Afterwards", &["growth", "lookback"]),
    ("To learn", &["lesson"]),
    (
        "Files and help",
        &["check", "manual", "completions", "help"],
    ),
];

/// Columns before what a command does.
const NAME: usize = 15;

/// The parser with this help.
pub(in crate::cli) fn parser() -> clap::Command {
    let parser = Arguments::command();
    let list = list(&parser);
    let heading = parser.get_styles().get_header();
    let template = format!(
        "{{before-help}}{{about-with-newline}}\n{{usage-heading}} {{usage}}\n\n{list}\
         {heading}Arguments:{heading:#}\n{{positionals}}\n\n\
         {heading}Options:{heading:#}\n{{options}}{{after-help}}"
    );
    parser.help_template(template)
}

/// Every heading with its commands and what each does.
fn list(parser: &clap::Command) -> String {
    let style = parser.get_styles();
    let (heading, literal) = (style.get_header(), style.get_literal());
    let mut text = String::new();
    for (title, names) in HEADINGS {
        // Writing to a string does not fail.
        let _ = writeln!(text, "{heading}{title}:{heading:#}");
        for name in names {
            let lines = wrapped(&about(parser, name), WIDTH - NAME);
            for (index, line) in lines.iter().enumerate() {
                let name = if index == 0 { *name } else { "" };
                let room = NAME - 2;
                let _ = writeln!(text, "  {literal}{name:<room$}{literal:#}{line}");
            }
        }
        text.push('\n');
    }
    text
}

/// What a command does.
fn about(parser: &clap::Command, name: &str) -> String {
    let commands = parser.get_subcommands();
    let about = commands
        .filter(|one| one.get_name() == name)
        .find_map(clap::Command::get_about);
    // The parser adds its own command for help as it parses.
    about.map_or_else(
        || "Print this message or the help of a command".to_owned(),
        ToString::to_string,
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn every_command_stands_under_one_heading() {
        let under: Vec<&str> = HEADINGS
            .iter()
            .flat_map(|(_, names)| names.iter().copied())
            .filter(|name| *name != "help")
            .collect();
        let parser = Arguments::command();
        let commands: BTreeSet<&str> = parser
            .get_subcommands()
            .map(clap::Command::get_name)
            .collect();
        assert_eq!(under.len(), commands.len());
        assert_eq!(under.iter().copied().collect::<BTreeSet<_>>(), commands);
    }

    #[test]
    fn the_help_lists_commands_by_heading_in_eighty_columns() {
        for help in [parser().render_help(), parser().render_long_help()] {
            let help = help.to_string();
            let mut last = 0;
            for (title, names) in HEADINGS {
                let at = help.find(&format!("\n{title}:\n")).unwrap();
                assert!(at > last);
                last = at;
                for name in names {
                    assert!(help[at..].contains(&format!("\n  {name} ")), "{name}");
                }
            }
            assert!(help.contains("--catalog"), "{help}");
            assert!(
                help.lines().all(|line| line.chars().count() <= WIDTH),
                "{help}"
            );
        }
    }
}
