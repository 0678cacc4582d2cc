//! Shapes of the user's own, and what is not in stock today.

use crate::call::Call;
use crate::desk::Desk;

const NONE: &str = r#"(format: 2, title: "mine", shapes: [], out_of_stock: [])"#;

/// A ranking with a catalogue of the user's own, handed on.
fn rank<T>(own: &str, format: &str, read: impl FnOnce(Call) -> T) -> T {
    let desk = Desk::new("own-shapes");
    desk.file("rimwise/shapes.ron", own);
    let call = Call::of(&["rank", "outlet-infant", "--format", format]);
    read(call.few_draws().settings(desk.folder()))
}

#[test]
fn what_is_put_aside_keeps_its_place_and_is_said_not_to_be_there() {
    let report = rank(NONE, "json", Call::json);
    let first = &report["candidates"][0];
    let name = format!(
        "{}/{}",
        first["shape"].as_str().expect("a shape"),
        first["size"].as_str().expect("a size")
    );
    assert_eq!(first["in_stock"], true);

    let own = format!(r#"(format: 2, title: "mine", shapes: [], out_of_stock: ["{name}"])"#);
    let again = rank(&own, "json", Call::json);
    let mut expected = first.clone();
    expected["in_stock"] = false.into();
    assert_eq!(again["candidates"][0], expected);
    assert_ne!(again["inputs_sha256"], report["inputs_sha256"]);
    let table = rank(&own, "table", Call::text);
    let words: Vec<&str> = table.split_whitespace().collect();
    let table = words.join(" ");
    for says in [
        "of 157 sizes".to_owned(),
        "1 more is not in stock today;".to_owned(),
        "among them would be first.".to_owned(),
        "– not in stock".to_owned(),
        "– not in stock today; next up".to_owned(),
    ] {
        assert!(table.contains(&says), "{says}\n{table}");
    }
    assert!(
        rank(&own, "csv", Call::text)
            .lines()
            .nth(1)
            .expect("a row")
            .ends_with(",false,")
    );
}
