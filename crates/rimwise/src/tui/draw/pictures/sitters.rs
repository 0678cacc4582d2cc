use geometry::Face;
use measurement::Valve;
use scene::{NearestToValve, View};
use session::{Bay, SectionLeft, Session};
use sizing::{Candidate, Setting, Shape, Size};
use std::borrow::Cow;
use std::sync::Arc;

/// All that the pictures of some bays tell of.
pub(super) struct PictureSubjects {
    setting: Arc<Setting>,
    pub(super) pieces: Vec<Piece>,
    pub(super) valve: Valve,
    pub(super) face: Face,
    pub(super) section_left: SectionLeft,
}

/// A size as it is set down.
pub(super) struct Piece {
    bay: Bay,
    found: Option<(Shape, Size)>,
    /// The size as it stands at the values as read, worked out here: a picture never
    /// waits for the list and never shows a value of before.
    pub(super) candidate: Option<Candidate>,
    /// Whether it comes nearest to the valve outside the cut that is drawn.
    is_nearest_outside: bool,
}

impl PictureSubjects {
    pub(super) fn of(session: &Session, bays: &[Bay]) -> Self {
        let setting = session.believed();
        let shown = session.document().shown();
        let piece = |bay: &Bay| {
            let found = bay.find(session.document().shelf());
            let candidate = found.as_ref().map(|(shape, size)| {
                let size = (bay.place, *shape, size);
                Candidate::assess(setting, size, bay.turn(), None)
            });
            Piece {
                bay: *bay,
                found: found.map(|(shape, size)| (shape.clone(), size)),
                candidate,
                is_nearest_outside: false,
            }
        };
        let mut sitters = Self {
            setting: Arc::clone(setting),
            pieces: bays.iter().map(piece).collect(),
            valve: shown.valve,
            face: shown.face,
            section_left: session.view().looks.section_left,
        };
        let are_outside: Vec<bool> = sitters
            .pictured()
            .iter()
            .zip(&sitters.pieces)
            .map(|(setting, piece)| is_nearest_outside(setting, piece, shown.valve))
            .collect();
        for (piece, is_outside) in sitters.pieces.iter_mut().zip(are_outside) {
            piece.is_nearest_outside = is_outside;
        }
        sitters
    }

    /// One size of any case, as it was assessed.
    pub(super) fn of_one(
        setting: &Arc<Setting>,
        candidate: &Candidate,
        (valve, face): (Valve, Face),
        section_left: SectionLeft,
    ) -> Self {
        let mut piece = Piece {
            bay: Bay::new(candidate.place),
            // No bay holds it: a page of bays never takes these pictures for its own.
            found: None,
            candidate: Some(candidate.clone()),
            is_nearest_outside: false,
        };
        let rotation = candidate.pictured_rotation();
        piece.is_nearest_outside = is_nearest_outside(&setting.pictured(rotation), &piece, valve);
        Self {
            setting: Arc::clone(setting),
            pieces: vec![piece],
            valve,
            face,
            section_left,
        }
    }

    /// Whether they are those of one size of any case.
    pub(super) fn is_one(
        &self,
        setting: &Arc<Setting>,
        candidate: &Candidate,
        seen: (Valve, Face),
        section_left: SectionLeft,
    ) -> bool {
        let is_it =
            |piece: &Piece| piece.found.is_none() && piece.candidate.as_ref() == Some(candidate);
        Arc::ptr_eq(&self.setting, setting)
            && (self.valve, self.face) == seen
            && self.section_left == section_left
            && self.pieces.len() == 1
            && self.pieces.iter().all(is_it)
    }

    /// Whether the size with an index comes nearest to the valve outside the cut.
    pub(super) fn is_nearest_outside(&self, index: usize) -> bool {
        self.pieces
            .get(index)
            .is_some_and(|piece| piece.is_nearest_outside)
    }

    /// Whether they are those of some bays of a session. The same allocation is the
    /// same setting: nobody changes one, and while it is kept its address is not
    /// given away.
    pub(super) fn are(&self, session: &Session, bays: &[Bay]) -> bool {
        let shown = session.document().shown();
        let shelf = session.document().shelf();
        let is_piece = |(piece, bay): (&Piece, &Bay)| {
            let found = bay.find(shelf);
            piece.bay == *bay
                && match (&piece.found, &found) {
                    (Some(kept), Some(now)) => kept.0 == *now.0 && kept.1 == now.1,
                    (None, None) => true,
                    _ => false,
                }
        };
        Arc::ptr_eq(&self.setting, session.believed())
            && self.valve == shown.valve
            && self.face == shown.face
            && self.section_left == session.view().looks.section_left
            && self.pieces.len() == bays.len()
            && self.pieces.iter().zip(bays).all(is_piece)
    }

    /// The setting of each piece, with the rotation at which a defect whose rotation
    /// nobody read is pictured.
    pub(super) fn pictured(&self) -> Vec<Cow<'_, Setting>> {
        let of = |piece: &Piece| {
            let rotation = piece.candidate.as_ref()?.pictured_rotation();
            Some(self.setting.pictured(rotation))
        };
        self.pieces
            .iter()
            .map(|piece| of(piece).unwrap_or(Cow::Borrowed(&self.setting)))
            .collect()
    }

    /// Whether there are the readings that a section needs.
    pub(super) fn have_section(&self) -> bool {
        View::Section(self.valve).missing(&self.setting).is_empty()
    }
}

/// Whether a size comes nearest to a valve outside the section toward it.
fn is_nearest_outside(setting: &Setting, piece: &Piece, valve: Valve) -> bool {
    let nearest = piece
        .candidate
        .as_ref()
        .and_then(|candidate| NearestToValve::of(setting, &candidate.size, candidate.turn, valve));
    nearest.is_some_and(|nearest| !nearest.is_in_cut)
}
