//! Writes an invented cohort into a folder that is there, to look back over:
//! `cargo run -p outside --example a_cohort FOLDER [BIAS [CASES]]`. Over 40 cases the
//! same children come again under other names.

use files::new_case;
use outside::cohort::{CASES, Plan, cohort};
use std::path::Path;

fn main() -> std::io::Result<()> {
    let mut arguments = std::env::args().skip(1);
    let Some(folder) = arguments.next() else {
        println!("name a folder to write into");
        return Ok(());
    };
    let mut number = || arguments.next().and_then(|it| it.parse::<f64>().ok());
    let bias = number().unwrap_or(0.0);
    let cases = number().unwrap_or(CASES as f64);
    let all = cohort(Plan {
        seed: 20,
        cases: CASES,
        rim_too_large_by: bias,
    });
    let mut written = 0;
    for mut case in all.into_iter().cycle() {
        if f64::from(written) >= cases {
            break;
        }
        written += 1;
        let name = format!("invented-{written:05}");
        let path = Path::new(&folder).join(format!("{name}.ron"));
        case.procedure.case_id = Some(name);
        std::fs::write(path, new_case(&case))?;
    }
    println!("{written} cases in {folder}");
    Ok(())
}
