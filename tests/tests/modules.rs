//! Modules of a crate use each other one way.

#![expect(clippy::unwrap_used, reason = "what fails here fails a test")]

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;

/// A module by the names that lead to it.
type Name = Vec<String>;

/// A crate's modules: what each imports, by the name it has there, and every path that
/// is spelled out in it.
#[derive(Default)]
struct Crate(BTreeMap<Name, (BTreeMap<String, Name>, Vec<Name>)>);

impl Crate {
    fn read(source: &Path) -> Self {
        let mut modules = Self::default();
        modules.read_folder(source, &Vec::new());
        modules
    }

    fn read_folder(&mut self, folder: &Path, within: &Name) {
        for entry in fs::read_dir(folder).unwrap().flatten() {
            let path = entry.path();
            let stem = path.file_stem().unwrap().to_str().unwrap().to_owned();
            let is_of_tests = [
                "tests", "fixture", "scratch", "scripts", "failing", "hostile",
            ];
            if is_of_tests.contains(&&*stem) {
                continue;
            }
            let mut name = within.clone();
            if stem != "lib" && stem != "main" {
                name.push(stem);
            }
            if path.is_dir() {
                self.read_folder(&path, &name);
            } else if path.extension().is_some_and(|it| it == "rs") {
                let text = fs::read_to_string(&path).unwrap();
                let code = code(&text);
                let uses = uses(&code, &name);
                self.0.insert(name.clone(), (uses, spelled(&code, &name)));
            }
        }
    }

    /// The module that a path leads to, through what is imported on the way.
    fn module(&self, path: &[String], depth: usize) -> Option<Name> {
        let mut at = Name::new();
        for (index, part) in path.iter().enumerate() {
            let mut next = at.clone();
            next.push(part.clone());
            if self.0.contains_key(&next) {
                at = next;
                continue;
            }
            let imported = self.0.get(&at)?.0.get(part);
            return match imported {
                Some(target) if depth > 0 => {
                    let mut target = target.clone();
                    target.extend_from_slice(&path[index + 1..]);
                    self.module(&target, depth - 1)
                }
                _ => Some(at),
            };
        }
        Some(at)
    }

    /// Which sibling uses which, at every level.
    fn edges(&self) -> BTreeMap<Name, BTreeSet<Name>> {
        let mut edges: BTreeMap<Name, BTreeSet<Name>> = BTreeMap::new();
        for (from, (uses, spelled)) in &self.0 {
            for path in uses.values().chain(spelled) {
                let Some(to) = self.module(path, 8) else {
                    continue;
                };
                let shared = from.iter().zip(&to).take_while(|(one, other)| one == other);
                let level = shared.count() + 1;
                if from.len() >= level && to.len() >= level {
                    let siblings = edges.entry(from[..level].to_vec()).or_default();
                    siblings.insert(to[..level].to_vec());
                }
            }
        }
        edges
    }

    /// Modules that are reached from themselves, a knot each, and how many they are.
    fn knots(&self) -> Vec<String> {
        let edges = self.edges();
        let reached = |from: &Name| {
            let mut found: BTreeSet<&Name> = BTreeSet::new();
            let mut next: Vec<&Name> = edges.get(from).into_iter().flatten().collect();
            while let Some(one) = next.pop() {
                if found.insert(one) {
                    next.extend(edges.get(one).into_iter().flatten());
                }
            }
            found
        };
        let all: BTreeMap<&Name, BTreeSet<&Name>> =
            edges.keys().map(|name| (name, reached(name))).collect();
        let knots: BTreeSet<Vec<String>> = all
            .iter()
            .filter(|(name, found)| found.contains(*name))
            .map(|(name, found)| {
                let is_back = |one: &&&Name| all.get(**one).is_some_and(|it| it.contains(name));
                found
                    .iter()
                    .filter(is_back)
                    .map(|it| it.join("::"))
                    .collect()
            })
            .collect();
        knots.into_iter().map(|knot| knot.join(" ")).collect()
    }
}

/// The lines of a file without its tests and comments.
fn code(text: &str) -> String {
    let mut code = String::new();
    let mut lines = text
        .lines()
        .map(|line| line.split("//").next().unwrap_or(""));
    while let Some(line) = lines.next() {
        if line != "#[cfg(test)]" {
            code.push_str(line);
            code.push('\n');
        } else if lines.next().is_none_or(|item| !item.ends_with(';')) {
            break;
        }
    }
    code
}

/// What a module imports, by the name it has there.
fn uses(code: &str, module: &Name) -> BTreeMap<String, Name> {
    let mut all = BTreeMap::new();
    let items = code.split(';').filter_map(|item| {
        let (before, tree) = item.rsplit_once("use ")?;
        before
            .lines()
            .last()
            .is_none_or(|it| it.trim().is_empty() || it.starts_with("pub"))
            .then_some(tree)
    });
    for tree in items {
        expand(tree, &Vec::new(), module, &mut all);
    }
    all
}

fn expand(tree: &str, before: &Name, module: &Name, into: &mut BTreeMap<String, Name>) {
    let tree = tree.trim();
    if tree.is_empty() {
        return;
    }
    if let Some((path, rest)) = tree.split_once('{') {
        let mut before = before.clone();
        before.extend(
            path.split("::")
                .map(str::trim)
                .filter(|it| !it.is_empty())
                .map(str::to_owned),
        );
        let inner = rest.trim_end().strip_suffix('}').unwrap_or(rest);
        let (mut depth, mut start) = (0, 0);
        for (at, letter) in inner.char_indices().chain([(inner.len(), ',')]) {
            match letter {
                '{' => depth += 1,
                '}' => depth -= 1,
                ',' if depth == 0 => {
                    if start < at {
                        expand(&inner[start..at], &before, module, into);
                    }
                    start = at + 1;
                }
                _ => {}
            }
        }
        return;
    }
    let (path, alias) = tree.split_once(" as ").unwrap_or((tree, ""));
    let mut path: Name = before
        .iter()
        .cloned()
        .chain(path.split("::").map(|it| it.trim().to_owned()))
        .collect();
    if path.last().is_some_and(|it| it == "self") {
        path.pop();
    }
    let last = path.last().cloned().unwrap_or_default();
    let name = if alias.is_empty() {
        last
    } else {
        alias.trim().to_owned()
    };
    if let Some(path) = absolute(&path, module) {
        into.insert(name, path);
    }
}

/// A path from the root of its crate; one that begins with no word of the language is a
/// child's of the module, or another crate's.
fn absolute(path: &[String], module: &Name) -> Option<Name> {
    let mut at = module.clone();
    let mut rest = path;
    match path.first()?.as_str() {
        "crate" => {
            at.clear();
            rest = &path[1..];
        }
        "self" => rest = &path[1..],
        _ => {
            while rest.first().is_some_and(|it| it == "super") {
                at.pop();
                rest = &rest[1..];
            }
        }
    }
    at.extend_from_slice(rest);
    Some(at)
}

/// Paths that are spelled out where they are used.
fn spelled(code: &str, module: &Name) -> Vec<Name> {
    let is_of_path = |letter: char| letter.is_alphanumeric() || letter == '_' || letter == ':';
    let words = code.split(|letter| !is_of_path(letter));
    let paths = words.filter(|word| word.starts_with("crate::") || word.starts_with("super::"));
    let names = paths.map(|path| path.split("::").map(str::to_owned).collect::<Name>());
    names.filter_map(|path| absolute(&path, module)).collect()
}

#[test]
fn no_modules_of_a_crate_use_each_other_in_a_circle() {
    let crates = Path::new(env!("CARGO_MANIFEST_DIR")).join("../crates");
    let mut wrong = Vec::new();
    for entry in fs::read_dir(crates).unwrap().flatten() {
        let name = entry.file_name().into_string().unwrap();
        let knots = Crate::read(&entry.path().join("src")).knots();
        wrong.extend(knots.into_iter().map(|knot| format!("{name}: {knot}")));
    }
    wrong.sort();
    assert!(
        wrong.is_empty(),
        "modules in a circle:\n{}",
        wrong.join("\n")
    );
}
