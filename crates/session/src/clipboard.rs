use crate::{Focus, Model, Page, Refused, ShelfRow};

/// What the page says in few lines, to be pasted elsewhere.
pub(crate) fn clipboard_text(model: &Model) -> Result<String, Refused> {
    let nothing = || Refused::NothingToCopy;
    match model.view().focus.page() {
        Page::Plan | Page::Doubt => candidate(model).ok_or_else(nothing),
        Page::FitMap => {
            let mapped = model.results().mapped();
            let says = mapped.and_then(|it| it.says.clone()).ok_or_else(nothing)?;
            let lines: Vec<String> = exceptions(model).chain([says]).collect();
            Ok(lines.join("\n"))
        }
        Page::WorkUp => {
            let lines = model.work_up();
            let line = lines.get(model.view().selected[Focus::WorkUp]);
            line.map(|(_, line)| {
                let parts = [
                    line.label.clone(),
                    line.told(),
                    line.note.clone(),
                    line.source.clone(),
                ];
                let parts: Vec<String> = parts.into_iter().filter(|it| !it.is_empty()).collect();
                parts.join("; ")
            })
            .ok_or_else(nothing)
        }
        Page::Shelf => shelf(model).ok_or_else(nothing),
        Page::Trials => trials(model).ok_or_else(nothing),
        Page::Rules => {
            let rules = model.house_rules();
            let rule = rules
                .get(model.view().selected[Focus::Rules])
                .ok_or_else(nothing)?;
            Ok(format!(
                "{}: {}. Source: {}",
                rule.about, rule.says, rule.source
            ))
        }
    }
}

/// The open or the last deployment: what was seen in it, line by line.
fn trials(model: &Model) -> Option<String> {
    let procedure = &model.document().case().procedure;
    let trial = procedure.trials.last()?;
    let outcome = trial.came_of_it.map_or("open", |it| it.name());
    let number = procedure.trials.len();
    let head = format!(
        "deployment {number}: {}, {outcome}",
        sizing::device_name(&trial.size)
    );
    let seen = trial
        .seen
        .iter()
        .map(|one| format!("- {}: {}", one.what.label(), one.seen.says(one.what)));
    let lines: Vec<String> = std::iter::once(head).chain(seen).collect();
    Some(lines.join("\n"))
}

/// The selected shape or size, and whether it is in stock today.
fn shelf(model: &Model) -> Option<String> {
    let shelf = model.document().shelf();
    match model.shelf_row()? {
        ShelfRow::Shape(id) => {
            let (_, shape) = shelf.shapes().find(|(_, shape)| shape.id == id)?;
            Some(format!("{}: {}. {}", shape.id, shape.name, shape.about))
        }
        ShelfRow::Size(place) => {
            let name = shelf.name(place)?;
            let aside = if shelf.is_aside(&name) {
                ", not in stock today"
            } else {
                ""
            };
            Some(format!("{name}{aside}"))
        }
    }
}

/// What the case excepts from the rules of the house, line by line.
fn exceptions(model: &Model) -> impl Iterator<Item = String> {
    let all = model.setting().exceptions().iter();
    all.map(|says| format!("! exception: {says}"))
}

/// The selected candidate: verdict, chance, and why it is no better.
fn candidate(model: &Model) -> Option<String> {
    let candidate = model.candidate()?;
    let case = model.document().case();
    let chance = candidate
        .chance_in_per_cent()
        .map_or_else(String::new, |it| {
            format!(", inside limits (geometry only) {it}")
        });
    let mut lines = vec![case.title.clone()];
    lines.extend(exceptions(model));
    lines.push(format!(
        "{} {}{chance}",
        sizing::device_name(&candidate.name()),
        candidate.judged.verdict.word()
    ));
    lines.extend(
        candidate
            .judged
            .because
            .iter()
            .map(|because| format!("- {because}")),
    );
    Some(lines.join("\n"))
}
