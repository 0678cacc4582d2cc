use crate::Source;
use crate::document::Document;

/// What a file holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum FileKind {
    /// A case.
    Case,
    /// A catalogue of shapes.
    Catalogue,
    /// The rules of a house.
    HouseRules,
    /// Published limits, and what is to be measured before.
    Guidance,
}

impl FileKind {
    /// What a text looks like, by the fields it has: a case if like nothing else.
    pub fn of(text: &str) -> Self {
        let document = Document::new(Source::new("", text));
        let has = |field| document.root().field(field).is_there();
        if has("shapes") {
            Self::Catalogue
        } else if has("children") || has("not_measured") {
            Self::Guidance
        } else if has("limits") || has("parameters") {
            Self::HouseRules
        } else {
            Self::Case
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::shipped;

    #[test]
    fn shipped_files_are_what_they_are() {
        assert_eq!(FileKind::of(shipped::HOUSE_RULES.1), FileKind::HouseRules);
        assert_eq!(FileKind::of(shipped::SHAPES.1), FileKind::Catalogue);
        assert_eq!(FileKind::of(shipped::GUIDANCE.1), FileKind::Guidance);
        for (name, text) in shipped::SCENARIOS {
            assert_eq!(FileKind::of(text), FileKind::Case, "{name}");
        }
        assert_eq!(FileKind::of("(((("), FileKind::Case);
    }
}
