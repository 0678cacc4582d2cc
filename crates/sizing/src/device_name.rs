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

/// Whether a name asks for the size of an id: the id itself, `even-narrow/5x2`, or what
/// the size is called, with `×` or `x`: `narrow 5 × 2`, `narrow 5x2`.
pub fn is_name_of(name: &str, id: &str) -> bool {
    let plain = |text: &str| {
        text.replace(" × ", "x")
            .replace(" x ", "x")
            .replace('×', "x")
    };
    name == id || plain(name.trim()) == plain(&device_name(id))
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

    #[test]
    fn a_size_is_found_by_its_id_or_by_what_it_is_called() {
        let id = "even-narrow/5x2";
        for name in [
            id,
            "narrow 5 × 2",
            "narrow 5x2",
            "narrow 5 x 2",
            " narrow 5×2",
        ] {
            assert!(is_name_of(name, id), "{name}");
        }
        for name in [
            "narrow 5 × 2.5",
            "even-narrow",
            "wide 5x2",
            "even-narrow 5x2",
            "",
        ] {
            assert!(!is_name_of(name, id), "{name}");
        }
    }
}
