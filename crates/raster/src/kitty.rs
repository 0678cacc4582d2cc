use crate::base64::base64;
use std::num::NonZeroU32;

/// Most bytes of base64 in one escape (the protocol's own bound).
const CHUNK: usize = 4096;

/// The number by which a terminal knows a picture, to replace and to erase it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct ImageId(pub NonZeroU32);

/// The bytes that show a PNG at the cursor over so many cells by the kitty graphics
/// protocol. The cursor stays where it is; the terminal is told not to answer, since
/// an answer would be read as keys. A picture of the same number is replaced.
///
/// Source: the protocol's specification,
/// <https://sw.kovidgoyal.net/kitty/graphics-protocol/>.
pub fn kitty(png: &[u8], id: ImageId, size: crate::CellSize) -> Vec<u8> {
    let text = base64(png);
    let mut bytes = Vec::with_capacity(text.len() + text.len() / 200 + 64);
    let mut chunks = text.chunks(CHUNK).peekable();
    let mut keys = format!(
        "a=T,f=100,i={},p=1,c={},r={},C=1,q=2,",
        id.0, size.columns, size.rows
    );
    while let Some(chunk) = chunks.next() {
        let more = u8::from(chunks.peek().is_some());
        bytes.extend_from_slice(format!("\x1b_G{keys}m={more};").as_bytes());
        bytes.extend_from_slice(chunk);
        bytes.extend_from_slice(b"\x1b\\");
        "q=2,".clone_into(&mut keys);
    }
    bytes
}

/// The bytes that erase a picture and free its memory in the terminal.
pub fn erase_kitty(id: ImageId) -> Vec<u8> {
    format!("\x1b_Ga=d,d=I,i={},q=2\x1b\\", id.0).into_bytes()
}
