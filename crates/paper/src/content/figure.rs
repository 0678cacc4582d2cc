use super::SheetRequest;
use crate::{Figure, layout};
use scene::View;
use scene::plate::{Column, Plate, usual_views};

/// The views in which the shown sizes are seen, the first the last to go; none where
/// there is no size to show.
pub(super) fn views(request: &SheetRequest) -> Vec<View> {
    let first = request.shown.first();
    first.map_or_else(Vec::new, |first| usual_views(request.setting(), first))
}

/// The shown sizes side by side, at a scale of no more than the largest; `None` where
/// there is none to show.
pub(super) fn figure(request: &SheetRequest, views: &[View], largest: f64) -> Option<Figure> {
    if request.shown.is_empty() {
        return None;
    }
    let shown = &request.shown;
    let names: Vec<String> = shown.iter().map(|one| request.device(one)).collect();
    let reasons: Vec<Option<String>> = shown
        .iter()
        .map(|one| Some(request.text(one.judged.because.first()?)))
        .collect();
    let columns = names.iter().zip(&reasons).zip(shown);
    let columns = columns.map(|((name, reason), candidate)| Column {
        name,
        reason: reason.as_deref(),
        candidate,
    });
    let plate = Plate {
        title: "The sizes in the heart",
        notes: &[],
        setting: request.setting(),
        columns: columns.collect(),
        views: views.to_vec(),
        orientation: request.orientation,
        width: layout::content_width(request.paper),
    };
    let inset = plate.inset(largest);
    Some(Figure {
        drawing: inset.drawing,
        scale: inset.scale,
        sentences: inset.sentences,
    })
}
