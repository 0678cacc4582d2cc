//! Every fault of a hand-edited case at once, with line, column and remedy.
//!
//! `cargo run -p files --example a_file_diagnosed`

use files::{parse_case, shipped, visible};

fn main() {
    let (name, text) = shipped::SCENARIOS[0];
    // Slips of the pen: a site that is none, a doubt below zero, an unknown view.
    let slips = [
        ("site: outlet_muscular", "site: outlet_muscle"),
        ("sd: 0.5", "sd: -0.5"),
        ("by: transthoracic_echo", "by: echo"),
    ];
    let damaged = slips.iter().fold(text.to_owned(), |text, (right, wrong)| {
        text.replacen(right, wrong, 1)
    });
    match parse_case(name, &damaged) {
        Ok(case) => println!("{}: nothing wrong", visible(&case.value().title)),
        Err(faults) => faults.iter().for_each(|fault| println!("{fault}")),
    }
}
