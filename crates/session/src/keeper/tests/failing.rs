//! Every operation of the disk made to fail under the keys of an operator: what the
//! screen said was done is there after a kill.

use super::*;
use files::{Fault, Operation};
use std::sync::{Arc, Mutex};

/// A typed value, a row of nudges, a save, and a change after it.
const KEYS: [&str; 6] = ["enter 7 enter", "right", "right", "w", "down up", "right"];

/// The operations of a disk that fails at the one of a number, and from there on
/// where it lasts.
fn disk(fails: Option<(usize, Fault, bool)>) -> (Disk, Arc<Mutex<Vec<Operation>>>) {
    let asked = Arc::new(Mutex::new(Vec::new()));
    let log = Arc::clone(&asked);
    let disk = Disk::failing(move |operation, _| {
        let mut log = log.lock().unwrap();
        let number = log.len();
        log.push(operation);
        let (at, fault, lasts) = fails?;
        // What is interrupted again and again would never end, here as anywhere.
        let lasts = lasts && fault != Fault::Interrupted;
        (number == at || lasts && number > at).then_some(fault)
    });
    (disk, asked)
}

/// Plays the keys on a disk and kills the program after so many of them; the value
/// that was confirmed last, and whether all were.
fn play(desk: &Desk, disk: Disk, count: usize) -> (f64, bool) {
    let mut window = Window(
        infant(),
        Keeper::on(disk).with_folder(&desk.0.join("state")),
        Vec::new(),
    );
    let opened = window.1.open(&mut window.0, &desk.case());
    assert!(opened.is_ok(), "{opened:?}");
    let mut confirmed = window.throat();
    let mut all = true;
    for keys in &KEYS[..count] {
        window.press(keys);
        let is_failed = window.1.force_at_rest(&mut window.0, Instant::now());
        let is_told = matches!(window.0.status(), Some(Status::Refused(_)));
        if is_failed || is_told || !window.0.has_journal() {
            all = false;
        } else {
            confirmed = window.throat();
        }
    }
    (confirmed, all)
}

#[test]
fn whatever_operation_fails_what_was_said_to_be_done_is_there() {
    let well = disk(None);
    let desk = Desk::new("failing-well");
    let (value, all) = play(&desk, well.0, KEYS.len());
    assert!(all && value == 7.3, "{value}");
    let count = well.1.lock().unwrap().len();
    assert!(count > 30, "{count}");
    let mut told = 0;
    for at in 0..count {
        for fault in Fault::ALL {
            for lasts in [false, true] {
                let desk = Desk::new("failing-keys");
                let (failing, _) = disk(Some((at, fault, lasts)));
                let (confirmed, all) = play(&desk, failing, KEYS.len());
                told += usize::from(!all);
                let mut window = Window::open(&desk.case());
                if !window.0.overlays().is_empty() {
                    window.press("r");
                }
                let found = window.throat();
                // What was told as not safe may be there all the same.
                let is_kept = found == confirmed || !all && found > confirmed;
                assert!(
                    is_kept,
                    "{fault:?} at {at}, lasting {lasts}: {confirmed} confirmed, {found} found"
                );
            }
        }
    }
    println!("{} faults, {told} told, 0 lost", 8 * count);
    assert!(told > count);
}
