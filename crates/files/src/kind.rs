use crate::Source;
use crate::outline::Outline;

/// The largest case that is read, in bytes.
pub(crate) const CASE_CAP: u64 = 256 * 1024;
/// The largest catalogue that is read, in bytes; no other file may be larger.
pub const CATALOGUE_CAP: u64 = 4 * 1024 * 1024;
/// The largest file of rules that is read, in bytes.
pub(crate) const RULES_CAP: u64 = 1024 * 1024;
/// The largest file of guidance that is read, in bytes.
pub(crate) const GUIDANCE_CAP: u64 = 1024 * 1024;

/// The largest lesson that is read, in bytes.
pub const LESSON_CAP: u64 = 256 * 1024;

/// The kind of a file.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum FileKind {
    /// A case.
    Case,
    /// A catalogue of shapes.
    Catalogue,
    /// The rules of a centre.
    HouseRules,
    /// Guidance: published limits, and what must be measured first.
    Guidance,
    /// A lesson about a case.
    Lesson,
}

impl FileKind {
    /// Guesses the kind of a text by its fields: a case if it is like no other.
    pub fn of(text: &str) -> Self {
        let source = Source::new("", text);
        let root = Outline::of(source.text()).root;
        let has = |field| root.field(source.text(), field).is_some();
        if has("shapes") {
            Self::Catalogue
        } else if has("children") || has("not_measured") {
            Self::Guidance
        } else if has("limits") || has("parameters") {
            Self::HouseRules
        } else if has("steps") {
            Self::Lesson
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
        for (name, text) in shipped::LESSONS {
            assert_eq!(FileKind::of(text), FileKind::Lesson, "{name}");
        }
        assert_eq!(FileKind::of("(((("), FileKind::Case);
    }
}
