/// A file for a case in none yet: its title in letters that every file system takes;
/// empty where no letter of it is one.
pub(crate) fn proposed(title: &str) -> String {
    /// What is still read at a glance in a list of files.
    const MOST: usize = 48;
    let lower = title.to_lowercase();
    let words = lower.split(|letter: char| !letter.is_ascii_alphanumeric());
    let mut name = String::new();
    for word in words.filter(|word| !word.is_empty()) {
        if name.len() + word.len() >= MOST {
            break;
        }
        if !name.is_empty() {
            name.push('-');
        }
        name.push_str(word);
    }
    if name.is_empty() {
        return name;
    }
    format!("{name}.ron")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_title_becomes_a_name_that_every_file_system_takes() {
        assert_eq!(proposed("3.6 kg, short rim"), "3-6-kg-short-rim.ron");
        assert_eq!(proposed("../心 / :"), "");
    }
}
