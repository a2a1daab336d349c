//! What is in a PDF, for tests: its streams unpacked, its texts, its fonts.
//!
//! Reads what the program writes: streams with their length beside them, one text
//! an operator, each as the numbers of its glyphs (ISO 32000-1, 7.3.8, 9.4.3, 9.10.3).

// Each test crate uses its own share of it.
#![allow(dead_code)]

use std::collections::BTreeMap;

use printpdf::{
    DictItem, ExternalStream, ExternalXObject, PdfDocument, PdfSaveOptions, XObject,
    XObjectId, to_lopdf_doc,
};

/// A PDF taken apart.
pub struct Pdf {
    /// All that isn't in a stream: dictionaries, properties, the table at its end.
    pub plain: Vec<u8>,
    /// Every stream with its dictionary, unpacked.
    pub streams: Vec<(String, Vec<u8>)>,
}

impl Pdf {
    /// Takes a PDF apart.
    pub fn read(bytes: &[u8]) -> Self {
        assert!(bytes.starts_with(b"%PDF"), "no PDF");
        let mut pdf = Self {
            plain: Vec::new(),
            streams: Vec::new(),
        };
        let mut from = 0;
        while let Some(at) = find(bytes, b"stream", from) {
            let begin = at + "stream".len();
            let begin = begin + usize::from(bytes[begin] == b'\r') + 1;
            let head = &bytes[from..at];
            let object = head.windows(4).rposition(|w| w == b" obj").unwrap();
            let dict = String::from_utf8_lossy(&head[object..]).into_owned();
            let length = number(dict.rsplit("/Length ").next().unwrap());
            let end = begin + length;
            assert!(
                find(bytes, b"endstream", end).is_some_and(|e| e <= end + 2),
                "{dict}"
            );
            pdf.plain.extend_from_slice(head);
            let content = &bytes[begin..end];
            let content = if dict.contains("/FlateDecode") {
                unpacked(content)
            } else {
                content.to_vec()
            };
            pdf.streams.push((dict, content));
            from = end + "endstream".len() + 1;
        }
        pdf.plain.extend_from_slice(&bytes[from..]);
        pdf
    }

    /// Every text, one a line; each is read by every table of characters, since a
    /// text doesn't say which font it is in.
    pub fn text(&self) -> String {
        let tables: Vec<BTreeMap<u16, char>> = self
            .streams
            .iter()
            .filter(|(_, content)| find(content, b"begincmap", 0).is_some())
            .map(|(_, content)| characters(&String::from_utf8_lossy(content)))
            .collect();
        let mut out = String::new();
        for (_, content) in &self.streams {
            if !is_page(content) {
                continue;
            }
            for glyphs in shown(content) {
                for table in &tables {
                    let read = glyphs.iter().filter_map(|g| table.get(g));
                    out.extend(read);
                    out.push('\n');
                }
            }
        }
        out
    }

    /// The names of the fonts that are embedded, each once, with the size of the
    /// largest font program.
    pub fn fonts(&self) -> (Vec<String>, usize) {
        let plain = String::from_utf8_lossy(&self.plain).into_owned();
        let mut names: Vec<String> = plain
            .split("/FontName/")
            .skip(1)
            .map(|rest| {
                let end = rest.find(['/', '>', ' ', '\n']).unwrap();
                rest[..end].to_owned()
            })
            .collect();
        names.sort();
        names.dedup();
        let programs = self.streams.iter().filter(|(dict, content)| {
            dict.contains("/Length1") || content.starts_with(b"OTTO")
        });
        let largest = programs.map(|(_, content)| content.len()).max();
        (names, largest.unwrap_or_default())
    }
}

/// Whether a stream is the marks of a page.
pub fn is_page(content: &[u8]) -> bool {
    find(content, b"BT\n", 0).is_some() && find(content, b" Tf", 0).is_some()
}

/// Where something begins, from a place on.
pub fn find(bytes: &[u8], wanted: &[u8], from: usize) -> Option<usize> {
    let rest = bytes.get(from..)?;
    let last = rest.len().checked_sub(wanted.len())?;
    let at = (0..=last)
        .find(|at| rest[*at] == wanted[0] && rest[*at..].starts_with(wanted))?;
    Some(from + at)
}

fn number(text: &str) -> usize {
    let digits: String = text.chars().take_while(char::is_ascii_digit).collect();
    digits.parse().unwrap()
}

/// The writer's own library unpacks what it packed.
fn unpacked(content: &[u8]) -> Vec<u8> {
    let mut document = PdfDocument::new("");
    let stream = ExternalStream {
        dict: BTreeMap::from([(
            "Filter".to_owned(),
            DictItem::Name(b"FlateDecode".to_vec()),
        )]),
        content: content.to_vec(),
        compress: false,
    };
    let object = XObject::External(ExternalXObject {
        stream,
        width: None,
        height: None,
        dpi: None,
    });
    let id = XObjectId("packed".to_owned());
    let _ = document.resources.xobjects.map.insert(id, object);
    let options = PdfSaveOptions::default();
    let file = to_lopdf_doc(&document, &options, &mut Vec::new());
    let mut streams = file.objects.values().filter_map(|o| o.as_stream().ok());
    let own = streams.find(|s| s.content == content).unwrap();
    own.decompressed_content().unwrap()
}

/// A table of characters: glyphs to what they mean.
fn characters(cmap: &str) -> BTreeMap<u16, char> {
    let mut table = BTreeMap::new();
    let hex = |text: &str| u16::from_str_radix(text, 16).ok();
    let mut part = "";
    for line in cmap.lines() {
        if line.contains("beginbfchar") {
            part = "char";
        } else if line.contains("beginbfrange") {
            part = "range";
        } else if line.contains("endbf") {
            part = "";
        }
        let numbers: Vec<u16> = line
            .split(['<', '>'])
            .filter(|t| t.len() == 4)
            .filter_map(hex)
            .collect();
        let mut put = |glyph: u16, code: u16| {
            let c = char::from_u32(u32::from(code)).unwrap_or('\u{fffd}');
            let _ = table.insert(glyph, c);
        };
        match (part, numbers.as_slice()) {
            ("char", pairs) => pairs.chunks_exact(2).for_each(|p| put(p[0], p[1])),
            ("range", [from, to, code]) => {
                (*from..=*to).for_each(|g| put(g, code + g - from));
            }
            _ => {}
        }
    }
    table
}

/// The glyphs of each text that a page shows.
fn shown(content: &[u8]) -> Vec<Vec<u16>> {
    let text = String::from_utf8_lossy(content);
    let mut all = Vec::new();
    for line in text.split("Tj") {
        let Some(open) = line.rfind('<') else {
            continue;
        };
        let hex: String = line[open + 1..].chars().take_while(|c| *c != '>').collect();
        let glyph = |at: usize| u16::from_str_radix(&hex[at..at + 4], 16).ok();
        all.push((0..hex.len() / 4).filter_map(|n| glyph(n * 4)).collect());
    }
    all
}
