//! Links between pages lead to files that exist.

use std::fs;
use std::path::{Path, PathBuf};

/// The pages of the project.
fn pages(folder: &Path, found: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).expect("a folder").flatten() {
        let path = entry.path();
        if path.is_dir() {
            pages(&path, found);
        } else if path.extension().is_some_and(|ending| ending == "md") {
            found.push(path);
        }
    }
}

/// What a page links to: the parts in round brackets behind square ones.
fn links(text: &str) -> impl Iterator<Item = &str> {
    text.split("](")
        .skip(1)
        .filter_map(|rest| rest.split_once(')'))
        .map(|(link, _)| link)
}

#[test]
fn every_link_between_pages_leads_somewhere() {
    let project = PathBuf::from(concat!(env!("CARGO_MANIFEST_DIR"), "/.."));
    let mut found = Vec::new();
    pages(&project.join("docs"), &mut found);
    found.extend(["README.md", "DEVELOPERS.md", "CHANGELOG.md"].map(|name| project.join(name)));
    let mut lost = Vec::new();
    let mut count = 0;
    for page in found {
        let text = fs::read_to_string(&page).expect("a text");
        let folder = page.parent().expect("a folder");
        for link in links(&text).filter(|link| !link.contains("://")) {
            count += 1;
            let file = link.split('#').next().unwrap_or(link);
            if !folder.join(file).exists() {
                lost.push(format!("{}: {link}", page.display()));
            }
        }
    }
    assert!(count > 15, "{count} links");
    assert_eq!(lost, [""; 0]);
}
