/// The name of a size on screens, from its `shape/size`: `narrow 5.5 × 2`, where a
/// heading says that this is waist by length.
pub fn device_name(name: &str) -> String {
    let Some((shape, size)) = name.split_once('/') else {
        return name.to_owned();
    };
    let words = shape.split('-').filter(|word| *word != "even");
    let words: Vec<&str> = words
        .map(|word| if word == "plug" { "barrel" } else { word })
        .collect();
    let (size, behind) = size.split_once(' ').unwrap_or((size, ""));
    let is_number = |text: &str| text.parse::<f64>().is_ok();
    let size = match size.split_once('x') {
        Some((waist, length)) if is_number(waist) && is_number(length) => {
            format!("{waist} × {length}")
        }
        _ => size.to_owned(),
    };
    format!("{} {size} {behind}", words.join(" "))
        .trim()
        .to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_size_is_called_by_its_shape_waist_and_length() {
        for (name, expected) in [
            ("even-narrow/6.5x2.5", "narrow 6.5 × 2.5"),
            ("offset-left/5x3", "offset left 5 × 3"),
            ("disc-and-plug/6x4", "disc and barrel 6 × 4"),
            ("larger-left/5x3 swapped", "larger left 5 × 3 swapped"),
            ("own/maxi", "own maxi"),
            ("no slash", "no slash"),
        ] {
            assert_eq!(device_name(name), expected);
        }
    }
}
