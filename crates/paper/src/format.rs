use crate::{Bundle, html, pdf, plain};
use std::path::Path;

/// What sheets are written as.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Format {
    /// A tagged PDF, one page a case.
    Pdf,
    /// One HTML file that runs nothing.
    Html,
    /// Plain text, 80 columns wide.
    Text,
}

impl Format {
    /// The format that the ending of a file's name says; `None` where it says none.
    pub fn of_ending(file: &Path) -> Option<Self> {
        let ending = file.extension()?.to_str()?.to_ascii_lowercase();
        Some(match ending.as_str() {
            "pdf" => Self::Pdf,
            "html" | "htm" => Self::Html,
            "txt" => Self::Text,
            _ => return None,
        })
    }

    /// The bytes of sheets in one file.
    pub fn bytes(self, bundle: &Bundle) -> Vec<u8> {
        match self {
            Self::Pdf => pdf::pdf(bundle),
            Self::Html => html::html(bundle).into_bytes(),
            Self::Text => plain::bundle(bundle).into_bytes(),
        }
    }
}
