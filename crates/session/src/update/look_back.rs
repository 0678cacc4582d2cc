use crate::Session;
use crate::effect::Effect;
use crate::look_back::{LookBackOrder, LookBackResult};
use crate::overlay::{LookBackPage, Overlay};
use std::path::PathBuf;
use std::sync::Arc;

impl Session {
    /// Lays the look-back over a folder over the page, and has the folder read.
    pub(super) fn look_back(&mut self, folder: PathBuf) {
        self.model.look_backs += 1;
        let number = self.model.look_backs;
        let page = LookBackPage::new(number, folder.clone());
        self.overlays.push(Overlay::LookBack(page));
        self.outbox.push(Effect::LookBack(LookBackOrder {
            number,
            folder,
            rules: Arc::clone(&self.model.document.rules),
        }));
    }

    /// Takes what came of a look-back, where its page still waits for it.
    pub(super) fn looked_back(&mut self, result: &LookBackResult) {
        let pages = self.overlays.iter_mut().filter_map(|layer| match layer {
            Overlay::LookBack(page) => Some(page),
            _ => None,
        });
        for page in pages.filter(|page| page.number == result.number) {
            page.fill(result.found.clone());
        }
    }
}
