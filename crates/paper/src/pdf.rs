//! The sheet as a PDF 1.7 file: tagged, its faces embedded, each text selectable
//! once.
//!
//! No clock is asked and nothing is drawn by chance: the same sheets give the same
//! bytes. A letter that the faces lack is printed as its code point, and the real
//! letter is what a reader copies or hears (`ActualText`).

mod content;
mod faces;
mod metadata;
mod tags;

use crate::layout::{self, PrintedPage};
use crate::{Bundle, Figure, Paper};
use content::PageWriter;
use faces::Faces;
use pdf_writer::{Filter, Finish, Name, Pdf, Rect, Ref, TextStr};
use tags::Tags;

/// Points to a millimetre.
const POINTS: f64 = 72.0 / 25.4;
/// The language of every text.
const LANGUAGE: &str = "en-GB";
/// How much work the compressor does, of 10.
const EFFORT: u8 = 6;

/// A page that is laid out, with its name in the list of pages.
struct LaidOut<'a> {
    name: String,
    page: PrintedPage,
    figure: Option<&'a Figure>,
}

/// The sheets as a PDF file.
pub fn pdf(bundle: &Bundle) -> Vec<u8> {
    let paper = bundle.paper();
    let mut pages: Vec<LaidOut> = Vec::new();
    if let Some(index) = bundle.index() {
        pages.extend(index.pages.iter().map(|sections| LaidOut {
            name: index.title.clone(),
            page: layout::index_page(&index.title, &index.caution, sections, paper),
            figure: None,
        }));
    }
    pages.extend(bundle.sheets.iter().map(|sheet| LaidOut {
        name: sheet.title.clone(),
        page: layout::page(sheet),
        figure: sheet.figure.as_ref(),
    }));
    file(bundle, &pages, paper)
}

fn file(bundle: &Bundle, pages: &[LaidOut], paper: Paper) -> Vec<u8> {
    let mut next = Ref::new(1);
    let [catalog, tree, info, metadata] = [(); 4].map(|()| next.bump());
    let mut pdf = Pdf::new();
    pdf.set_version(1, 7);
    let id = bundle.id.as_bytes().to_vec();
    pdf.set_file_id((id.clone(), id));
    let mut faces = Faces::new(&mut next);
    let mut tags = Tags::new(&mut next);
    let mut of_pages = Vec::new();
    for (number, one) in pages.iter().enumerate() {
        let [page, content] = [(); 2].map(|()| next.bump());
        let mut writer = PageWriter::new(paper, page, &mut faces, &mut tags, &mut next);
        writer.nodes(&one.page.nodes, one.figure.zip(one.page.figure));
        if pages.len() > 1 {
            writer.page_number(number + 1, pages.len());
        }
        let bytes = writer.finish();
        compressed(&mut pdf, content, &bytes);
        let mut writer = pdf.page(page);
        let size = [paper.width(), paper.height()].map(|mm| points(mm * POINTS));
        writer.media_box(Rect::new(0.0, 0.0, size[0], size[1]));
        writer.parent(tree).contents(content);
        writer.struct_parents(i32::try_from(number).unwrap_or(i32::MAX));
        writer.pair(Name(b"Tabs"), Name(b"S"));
        let mut resources = writer.resources();
        faces.name_in(&mut resources.fonts());
        resources.finish();
        writer.finish();
        of_pages.push(page);
    }
    let mut writer = pdf.pages(tree);
    writer.kids(of_pages.iter().copied());
    writer.count(i32::try_from(of_pages.len()).unwrap_or(i32::MAX));
    writer.finish();
    faces.write(&mut pdf);
    let title = bundle.title();
    let mut writer = pdf.document_info(info);
    writer.title(TextStr(&title));
    writer.producer(TextStr(crate::Provenance::PROGRAM));
    writer.finish();
    metadata::write(&mut pdf, metadata, &title);
    let outline = (pages.len() > 1).then(|| outline(&mut pdf, pages, &of_pages, &mut next));
    let root = tags.write(&mut pdf);
    let mut writer = pdf.catalog(catalog);
    writer.pages(tree).metadata(metadata);
    writer.lang(TextStr(LANGUAGE));
    writer.mark_info().marked(true);
    writer.viewer_preferences().display_doc_title(true);
    writer.pair(Name(b"StructTreeRoot"), root);
    if let Some(outline) = outline {
        writer.outlines(outline);
    }
    writer.finish();
    pdf.finish()
}

/// The list of pages beside them.
fn outline(pdf: &mut Pdf, pages: &[LaidOut], of_pages: &[Ref], next: &mut Ref) -> Ref {
    let root = next.bump();
    let items: Vec<Ref> = pages.iter().map(|_| next.bump()).collect();
    let mut writer = pdf.outline(root);
    if let (Some(first), Some(last)) = (items.first(), items.last()) {
        writer.first(*first).last(*last);
    }
    writer.count(i32::try_from(items.len()).unwrap_or(i32::MAX));
    writer.finish();
    for (index, one) in pages.iter().enumerate() {
        let mut item = pdf.outline_item(items[index]);
        item.title(TextStr(&one.name)).parent(root);
        if let Some(before) = index.checked_sub(1) {
            item.prev(items[before]);
        }
        if let Some(after) = items.get(index + 1) {
            item.next(*after);
        }
        item.dest().page(of_pages[index]).fit();
    }
    root
}

/// Writes a stream, made smaller.
fn compressed(pdf: &mut Pdf, id: Ref, bytes: &[u8]) {
    let small = miniz_oxide::deflate::compress_to_vec_zlib(bytes, EFFORT);
    pdf.stream(id, &small).filter(Filter::FlateDecode);
}

/// A length as the file has it, to a thousandth.
fn points(value: f64) -> f32 {
    const THOUSANDTHS: f64 = 1000.0;
    #[expect(
        clippy::cast_possible_truncation,
        reason = "a page is a few hundred points"
    )]
    let short = ((value * THOUSANDTHS).round() / THOUSANDTHS) as f32;
    // A rounded zero has no sign.
    short + 0.0
}
