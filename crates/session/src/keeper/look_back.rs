use super::Keeper;
use crate::look_back::{LookBackFound, LookBackOrder, LookBackResult};
use files::read_case_folder;
use sizing::look_back::LookBack;
use std::sync::Arc;

impl Keeper {
    /// Reads every case of a folder as it is on disk, on so many threads. Ten thousand
    /// take seconds.
    pub fn look_back(order: &LookBackOrder, threads: usize) -> LookBackResult {
        let read = read_case_folder(&order.folder, &order.rules, threads);
        let found = read.map(|folder| {
            Arc::new(LookBackFound {
                look_back: LookBack::of(&folder.records),
                files: folder.cases(),
                left_out: folder.left_out,
            })
        });
        LookBackResult {
            number: order.number,
            found: found.map_err(|error| error.to_string()),
        }
    }
}
