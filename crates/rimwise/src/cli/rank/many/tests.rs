use super::*;
use crate::cli::args::Against;

fn asked(cases: &[&str], format: Format, threads: u8) -> RankArguments {
    let mut paths = cases.iter().map(PathBuf::from);
    let first = paths.next().unwrap();
    let mut asked = RankArguments::of(first, Against::default());
    asked.common.draws = 512;
    asked.common.threads = threads;
    asked.more = paths.collect();
    asked.format = format;
    asked
}

fn written(cases: &[&str], format: Format, threads: u8) -> (String, Result<()>) {
    let mut out = Vec::new();
    let done = crate::cli::rank::run(&asked(cases, format, threads), &mut out);
    (String::from_utf8(out).unwrap(), done)
}

const CASES: [&str; 3] = ["outlet-infant", "bundle", "three-neighbours"];

#[test]
fn many_cases_are_each_alone_in_their_order() {
    let (together, done) = written(&CASES, Format::Csv, 3);
    done.unwrap();
    let mut lines = together.lines();
    let head = lines.next().unwrap();
    for case in CASES {
        let (alone, done) = written(&[case], Format::Csv, 1);
        done.unwrap();
        let mut alone = alone.lines();
        assert_eq!(head, format!("case,{}", alone.next().unwrap()));
        for line in alone {
            assert_eq!(lines.next().unwrap(), format!("{case},{line}"));
        }
    }
    assert_eq!(lines.next(), None);
}

#[test]
fn json_is_one_object_a_line_that_says_what_it_says_alone() {
    let (together, done) = written(&CASES, Format::Json, 2);
    done.unwrap();
    assert_eq!(together.lines().count(), CASES.len());
    for (line, case) in together.lines().zip(CASES) {
        let mut one: serde_json::Value = serde_json::from_str(line).unwrap();
        let file = one.as_object_mut().unwrap().remove("file").unwrap();
        assert_eq!(file, case);
        let (alone, done) = written(&[case], Format::Json, 1);
        done.unwrap();
        assert_eq!(
            one,
            serde_json::from_str::<serde_json::Value>(&alone).unwrap()
        );
    }
}

#[test]
fn a_bad_case_is_left_out_and_the_call_is_bad() {
    let cases = ["outlet-infant", "/nowhere/at/all.ron", "bundle"];
    let (together, done) = written(&cases, Format::Csv, 2);
    let error = done.unwrap_err();
    assert!(error.is::<BadInput>());
    assert_eq!(error.to_string(), "1 of 3 cases left out");
    let of = |case: &str| {
        together
            .lines()
            .filter(|line| line.starts_with(case))
            .count()
    };
    assert!(of("outlet-infant,") > 100 && of("bundle,") > 100);
    assert!(!together.contains("nowhere"));
}

#[test]
fn a_table_is_of_one_case() {
    let (_, done) = written(&CASES, Format::Table, 1);
    assert!(done.unwrap_err().is::<BadInput>());
}
