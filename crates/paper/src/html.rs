//! The sheet as one HTML file: no script, nothing from elsewhere, and printed as the
//! PDF is.

use crate::{Body, Bundle, Figure, Line, Mark, Section, Sheet, marks};
use scene::stroke::colours::{Rgb, colour};
use scene::stroke::{PageGround, Role};
use scene::svg::{Escaped, svg};
use std::fmt::Write as _;

/// Nothing may be loaded, and nothing may run.
const POLICY: &str = "default-src 'none'; style-src 'unsafe-inline'";

/// Lengths are those of the paper; colours stand in classes of their own. Lines stand a
/// little closer than in the PDF, so that a browser, which breaks them elsewhere, has
/// room for them on one page; the faces named have one another's widths.
const STYLE: &str = "\
html{font-family:'Liberation Sans',Arimo,Arial,Helvetica,'Nimbus Sans',sans-serif;font-size:2.6mm;line-height:1.16;color:#1b1b1b;background:#fff}\
body{margin:0}article{margin:0 auto;box-sizing:border-box;break-after:page}article:last-child{break-after:auto}\
h1{font-size:5.4mm;margin:0}h2{font-size:3.2mm;margin:1.2mm 0 .2mm}p{margin:0 0 .2mm}\
.site{font-size:3.2mm}.caution{font-size:2.4mm}.fine{font-size:2.2mm;color:#5a5a5a}\
.headline{font-size:4.7mm;font-weight:bold}.alert p{font-size:3mm;font-weight:bold}\
.head{display:flex;gap:6mm}.head>div:first-child{flex:1}\
.sticker{box-sizing:border-box;width:62mm;height:21mm;border:.15mm solid #5a5a5a;padding:1.5mm;display:flex;align-items:flex-end}\
.columns{display:flex;gap:6mm}.columns>div{flex:1;min-width:0}\
table{border-collapse:collapse;width:100%}th,td{text-align:left;vertical-align:top;font-weight:normal;padding:0 2.5mm .15mm 0;overflow-wrap:anywhere}\
thead th{font-size:2.3mm;font-weight:bold;color:#5a5a5a;border-bottom:.12mm solid #5a5a5a}\
.sign{display:flex;gap:6mm;margin-top:5mm}.sign p{flex:1;border-top:.2mm solid #5a5a5a;padding-top:.6mm}\
figure{margin:.6mm 0}figure svg{display:block;max-width:100%;height:auto}\
@media print{.columns{font-size:2.4mm}.columns h2{font-size:2.9mm;margin:.8mm 0 .1mm}.columns thead th{font-size:2.2mm}}\
svg.mark{width:.9em;height:.9em;vertical-align:-.1em;margin-right:.3em}\
h1,p,td,th{overflow-wrap:anywhere}text[aria-hidden]{user-select:none}";

/// Every mark.
const MARKS: [Mark; 5] = [
    Mark::Ok,
    Mark::Warning,
    Mark::Beyond,
    Mark::NotKnown,
    Mark::Box,
];

/// The sheets as an HTML file.
pub fn html(bundle: &Bundle) -> String {
    let mut page = Writer {
        text: String::new(),
    };
    let paper = bundle.paper();
    let (title, name) = (bundle.title(), paper.name());
    let title = Escaped(&title);
    let width = paper.width() - 20.0;
    let mut classes = String::new();
    for mark in MARKS {
        let colour = hex(colour(role(mark), PageGround::Light));
        let _ = write!(classes, ".{}{{color:{colour}}}", class(mark));
    }
    page.put(format_args!(
        "<!DOCTYPE html>\n<html lang=\"en-GB\">\n<head>\n<meta charset=\"utf-8\">\n\
         <meta http-equiv=\"Content-Security-Policy\" content=\"{POLICY}\">\n\
         <meta name=\"viewport\" content=\"width=device-width\">\n<title>{title}</title>\n\
         <style>@page{{size:{name};margin:8mm 10mm}}article{{width:{width}mm}}{STYLE}{classes}</style>\n\
         </head>\n<body>\n"
    ));
    if let Some(index) = bundle.index() {
        page.put(format_args!("<article>\n"));
        page.put(format_args!("<h1>{}</h1>\n", Escaped(&index.title)));
        page.paragraph("caution", &index.caution);
        for one in index.pages.iter().flatten() {
            page.section(one);
        }
        page.put(format_args!("</article>\n"));
    }
    for (number, sheet) in bundle.sheets.iter().enumerate() {
        page.sheet(number + 1, sheet);
    }
    page.put(format_args!("</body>\n</html>\n"));
    page.text
}

struct Writer {
    text: String,
}

impl Writer {
    fn put(&mut self, text: std::fmt::Arguments) {
        // Writing to a string cannot fail.
        let _ = self.text.write_fmt(text);
    }

    fn paragraph(&mut self, class: &str, text: &str) {
        self.put(format_args!("<p class=\"{class}\">{}</p>\n", Escaped(text)));
    }

    fn sheet(&mut self, number: usize, sheet: &Sheet) {
        self.put(format_args!(
            "<article id=\"case-{number}\">\n<div class=\"head\"><div>\n<h1>{}</h1>\n",
            Escaped(&sheet.title)
        ));
        self.paragraph("site", &sheet.site);
        self.paragraph("caution", &sheet.caution);
        self.put(format_args!(
            "</div><div class=\"sticker fine\">{}</div></div>\n",
            Escaped(&sheet.sticker)
        ));
        for says in &sheet.headline {
            self.paragraph("headline", says);
        }
        self.put(format_args!("<div class=\"alert\">\n"));
        self.body(&sheet.alerts);
        self.put(format_args!("</div>\n"));
        if let Some(figure) = &sheet.figure {
            self.figure(figure);
        }
        self.put(format_args!("<div class=\"columns\">\n"));
        for column in &sheet.columns {
            self.put(format_args!("<div>\n"));
            for one in column {
                self.section(one);
            }
            self.put(format_args!("</div>\n"));
        }
        self.put(format_args!("</div>\n<div class=\"sign\">\n"));
        for who in &sheet.signatures {
            self.paragraph("fine", who);
        }
        self.put(format_args!("</div>\n"));
        for says in &sheet.provenance {
            self.paragraph("fine", says);
        }
        self.put(format_args!("</article>\n"));
    }

    fn figure(&mut self, figure: &Figure) {
        let drawing = svg(&figure.drawing, PageGround::Light);
        self.put(format_args!("<figure>\n{drawing}</figure>\n"));
    }

    fn section(&mut self, section: &Section) {
        self.put(format_args!(
            "<section>\n<h2>{}</h2>\n",
            Escaped(&section.heading)
        ));
        if !section.note.is_empty() {
            self.paragraph("fine", &section.note);
        }
        self.body(section);
        self.put(format_args!("</section>\n"));
    }

    fn body(&mut self, section: &Section) {
        match &section.body {
            Body::Lines(lines) => {
                for line in lines {
                    self.put(format_args!("<p>"));
                    self.line(line);
                    self.put(format_args!("</p>\n"));
                }
            }
            Body::Table { heads, rows } => {
                self.put(format_args!("<table>\n<thead><tr>"));
                for head in heads {
                    self.put(format_args!("<th scope=\"col\">{}</th>", Escaped(head)));
                }
                self.put(format_args!("</tr></thead>\n<tbody>\n"));
                for row in rows {
                    self.put(format_args!("<tr>"));
                    for (index, cell) in row.cells.iter().enumerate() {
                        let (begin, end) = match index {
                            0 => ("<th scope=\"row\">", "</th>"),
                            _ => ("<td>", "</td>"),
                        };
                        self.put(format_args!("{begin}"));
                        self.line(cell);
                        self.put(format_args!("{end}"));
                    }
                    self.put(format_args!("</tr>\n"));
                }
                self.put(format_args!("</tbody>\n</table>\n"));
            }
        }
        if let Some(more) = section.more() {
            self.paragraph("more", &more);
        }
    }

    fn line(&mut self, line: &Line) {
        let text = Escaped(&line.text);
        let Some(mark) = line.mark else {
            self.put(format_args!("{text}"));
            return;
        };
        let class = class(mark);
        self.put(format_args!(
            "<span class=\"{class}\"><svg class=\"mark\" viewBox=\"0 0 1 1\" aria-hidden=\"true\" \
             fill=\"none\" stroke=\"currentColor\">"
        ));
        for one in marks::lines(mark) {
            self.put(format_args!("<path stroke-width=\"{}\" d=\"", one.width));
            for (index, [x, y]) in one.points.iter().enumerate() {
                let step = if index == 0 { 'M' } else { 'L' };
                self.put(format_args!("{step}{x} {y}"));
            }
            let end = if one.is_closed { "Z" } else { "" };
            self.put(format_args!("{end}\"/>"));
        }
        self.put(format_args!("</svg>{text}</span>"));
    }
}

/// The class of what stands beside a mark.
const fn class(mark: Mark) -> &'static str {
    match mark {
        Mark::Ok => "ok",
        Mark::Warning => "warning",
        Mark::Beyond => "beyond",
        Mark::NotKnown => "not-known",
        Mark::Box => "box",
    }
}

/// The colour of a mark and of the words beside it.
const fn role(mark: Mark) -> Role {
    match mark {
        Mark::Ok => Role::Ok,
        Mark::Warning => Role::Warning,
        Mark::Beyond => Role::Beyond,
        Mark::NotKnown | Mark::Box => Role::Word,
    }
}

fn hex(Rgb { red, green, blue }: Rgb) -> String {
    format!("#{red:02x}{green:02x}{blue:02x}")
}
