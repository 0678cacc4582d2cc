//! What a reader's window and a search index say of the file (XMP).

use super::LANGUAGE;
use crate::Provenance;
use pdf_writer::{Finish, Name, Pdf, Ref};
use scene::svg::Escaped;

/// Writes the description of the file. It has no date: the same sheets give the same
/// bytes.
pub(super) fn write(pdf: &mut Pdf, id: Ref, title: &str) {
    let title = Escaped(title);
    let program = Provenance::PROGRAM;
    let description = format!(
        "<?xpacket begin=\"\u{feff}\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?>\n\
         <x:xmpmeta xmlns:x=\"adobe:ns:meta/\">\
         <rdf:RDF xmlns:rdf=\"http://www.w3.org/1999/02/22-rdf-syntax-ns#\">\
         <rdf:Description rdf:about=\"\" xmlns:dc=\"http://purl.org/dc/elements/1.1/\" \
         xmlns:pdf=\"http://ns.adobe.com/pdf/1.3/\">\
         <dc:title><rdf:Alt><rdf:li xml:lang=\"x-default\">{title}</rdf:li></rdf:Alt></dc:title>\
         <dc:language><rdf:Bag><rdf:li>{LANGUAGE}</rdf:li></rdf:Bag></dc:language>\
         <pdf:Producer>{program}</pdf:Producer>\
         </rdf:Description></rdf:RDF></x:xmpmeta>\n\
         <?xpacket end=\"r\"?>"
    );
    let mut stream = pdf.stream(id, description.as_bytes());
    stream.pair(Name(b"Type"), Name(b"Metadata"));
    stream.pair(Name(b"Subtype"), Name(b"XML"));
    stream.finish();
}
