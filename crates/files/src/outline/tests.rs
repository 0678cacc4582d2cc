use super::*;
use proptest::prelude::*;
use ron::Value;

/// Every value's path and text.
fn leaves(text: &str) -> Vec<(String, &str)> {
    fn walk<'a>(node: &Node, mut path: String, text: &'a str, all: &mut Vec<(String, &'a str)>) {
        node.push_to(&mut path, text);
        if node.inner.is_empty() {
            all.push((path, &text[node.span.clone()]));
        } else {
            for inner in &node.inner {
                walk(inner, path.clone(), text, all);
            }
        }
    }
    let mut all = Vec::new();
    walk(&Outline::of(text).root, String::new(), text, &mut all);
    all
}

fn expect(text: &str, wanted: &[(&str, &str)]) {
    let wanted: Vec<_> = wanted
        .iter()
        .map(|&(path, value)| (path.to_owned(), value))
        .collect();
    assert_eq!(leaves(text), wanted, "{text}");
}

#[test]
fn fields_lists_maps_and_tuples() {
    expect(
        r#"(a: 1.5, list: [x, "y"], map: {"k, (": no, 2: yes}, pair: (3, -4))"#,
        &[
            ("a", "1.5"),
            ("list[0]", "x"),
            ("list[1]", "\"y\""),
            ("map[\"k, (\"]", "no"),
            ("map[2]", "yes"),
            ("pair[0]", "3"),
            ("pair[1]", "-4"),
        ],
    );
}

#[test]
fn comments_anywhere_even_nested() {
    expect(
        "/* a: ( /* [ */ */ // (\n Name /**/ ( // }\n a /*:*/ : /*,*/ 1 /*)*/ , )",
        &[("a", "1")],
    );
}

#[test]
fn text_in_all_its_spellings() {
    expect(
        r###"(a: "\"), (", b: r#"x"),("#, c: r##""#"##, d: ')', e: '\'', f: b"\")", g: '\u{29}', r#h: "ä")"###,
        &[
            ("a", r#""\"), (""#),
            ("b", r##"r#"x"),("#"##),
            ("c", r###"r##""#"##"###),
            ("d", "')'"),
            ("e", r"'\''"),
            ("f", r#"b"\")""#),
            ("g", r"'\u{29}'"),
            ("h", "\"ä\""),
        ],
    );
}

#[test]
fn variants_and_options() {
    expect(
        "#![enable(implicit_some)] (a: [prolapse, under(10), of(x: 1)], b: Some((c: 2)), d: Some(3), e: None)",
        &[
            ("a[0]", "prolapse"),
            ("a[1][0]", "10"),
            ("a[2].x", "1"),
            ("b.c", "2"),
            ("d", "Some(3)"),
            ("e", "None"),
        ],
    );
}

#[test]
fn the_innermost_open_bracket_is_the_one_not_closed() {
    let text = "(list: [(a: 1), (a: 2, ], b: 3)";
    let unclosed = Outline::of(text).unclosed.unwrap();
    assert_eq!(&text[unclosed.opened..], "(a: 2, ], b: 3)");
    assert_eq!(&text[unclosed.until..], "], b: 3)");
    assert_eq!(Outline::of("(a: [1, 2])").unclosed, None);
}

#[test]
fn the_values_around_a_byte() {
    let text = "(list: [(a: 1, bb: 22)])";
    let path_at = |offset| {
        let mut path = String::new();
        Outline::of(text)
            .containing(offset)
            .iter()
            .for_each(|node| node.push_to(&mut path, text));
        path
    };
    assert_eq!(path_at(text.find("22").unwrap()), "list[0].bb");
    assert_eq!(path_at(text.find("bb").unwrap()), "list[0].bb");
    assert_eq!(path_at(text.find(", bb").unwrap()), "list[0]");
    assert_eq!(path_at(0), "");
}

#[test]
fn bottomless_nesting_is_not_followed() {
    for open in ["(", "[", "{", "a(", "{a:", "[[(a:"] {
        Outline::of(&open.repeat(100_000));
    }
}

/// Whether an outline has the shape that `ron` found.
fn agrees(value: &Value, node: &Node, text: &str) -> bool {
    if node.inner.is_empty() {
        return ron::from_str::<Value>(&text[node.span.clone()]).as_ref() == Ok(value);
    }
    match value {
        Value::Option(Some(inner)) => agrees(inner, node, text),
        Value::Seq(items) => {
            items.len() == node.inner.len()
                && items
                    .iter()
                    .zip(&node.inner)
                    .all(|(item, inner)| agrees(item, inner, text))
        }
        // Of equal keys `ron` keeps one.
        Value::Map(entries) => (1..=node.inner.len()).contains(&entries.len()),
        _ => false,
    }
}

fn token() -> impl Strategy<Value = String> {
    prop_oneof![
        4 => prop::sample::select(vec![
            "(", ")", "[", "]", "{", "}", ",", ":", "a:", "b: ", " ", "\n", "1", "-2.5", "1e3",
            "x", "Some(", "None", "true", "'c'", "'\\''", "'('", "\"s\"", "\"\\\"(\"", "r\"q\"",
            "r#\"a\"b\"#", "b\"z\"", "b'y'", "// c\n", "/* d */", "/* /* */ */", "/", "\"", "'",
            "#", "\\", "r#id", "\u{2028}", "é",
        ]).prop_map(str::to_owned),
        1 => any::<String>(),
    ]
}

/// A text that `ron` takes.
fn ron_text() -> impl Strategy<Value = String> {
    let leaf = prop::sample::select(vec![
        "1",
        "-2.5",
        "true",
        "'('",
        "'\\''",
        "\"s, (\"",
        "\"\\\"[\"",
        "r#\"a\"b\"#",
        "b\"]\"",
        "None",
        "Some( 3 )",
        "()",
    ]);
    let blank = || prop::sample::select(vec!["", " ", "/*)*/", "// ]\n", "\n\t"]);
    leaf.prop_map(str::to_owned)
        .prop_recursive(4, 40, 5, move |inner| {
            let items = || prop::collection::vec((inner.clone(), blank()), 1..5);
            let joined = |items: &[(String, &str)]| {
                items
                    .iter()
                    .map(|(item, blank)| format!("{blank}{item}{blank}"))
                    .collect::<Vec<_>>()
                    .join(",")
            };
            prop_oneof![
                items().prop_map(move |items| format!("[{}]", joined(&items))),
                items().prop_map(move |items| format!("({},)", joined(&items))),
                items().prop_map(|items| {
                    let fields = items
                        .iter()
                        .enumerate()
                        .map(|(at, (item, blank))| format!("f{at}{blank}:{item}"));
                    format!("({})", fields.collect::<Vec<_>>().join(","))
                }),
                items().prop_map(|items| {
                    let entries = items
                        .iter()
                        .enumerate()
                        .map(|(at, (item, blank))| format!("{at}{blank}:{item}"));
                    format!("{{{}}}", entries.collect::<Vec<_>>().join(","))
                }),
            ]
        })
}

proptest! {
    #[test]
    fn any_text_has_an_outline(text in any::<String>()) {
        Outline::of(&text);
    }

    #[test]
    fn any_tokens_have_an_outline_that_agrees_with_ron(tokens in prop::collection::vec(token(), 0..40)) {
        let text = tokens.concat();
        let outline = Outline::of(&text);
        if let Ok(value) = ron::from_str::<Value>(&text) {
            prop_assert_eq!(&outline.unclosed, &None);
            prop_assert!(agrees(&value, &outline.root, &text), "{:?} {:?}", value, outline);
        }
    }

    #[test]
    fn what_ron_takes_is_found_whole(text in ron_text()) {
        let value = ron::from_str::<Value>(&text);
        prop_assert!(value.is_ok(), "{}: {:?}", text, value);
        let outline = Outline::of(&text);
        prop_assert_eq!(&outline.unclosed, &None);
        prop_assert!(agrees(&value.unwrap(), &outline.root, &text), "{} {:?}", text, outline);
    }
}
