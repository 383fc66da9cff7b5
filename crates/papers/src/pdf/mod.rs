//! PDF, as much of it as lines and words on pages need: true size, the same bytes for the same pages.
//!
//! Written by hand after the published format (ISO 32000), since a library for it would bring dozens with
//! it: a catalogue, one stream a page, and two of the fourteen types that every reader has. Lengths are
//! inches from a page's lower left corner, y up; the format's own unit is 1/72 inch. Words are Latin letters:
//! any other letter is written as a question mark.

mod page;

pub use page::{Ink, Page};

use std::fmt::Write as _;

/// Units of the format in an inch.
pub(crate) const POINTS_PER_IN: f64 = 72.0;

/// The pages as one file.
#[must_use]
pub fn pdf(title: &str, pages: &[Page]) -> Vec<u8> {
    // 1 is the catalogue, 2 the list of pages, 3 what is known of the file, 4 and 5 the types; each page
    // and its stream follow.
    let page_no = |i: usize| 6 + 2 * i;
    let kids: Vec<String> = (0..pages.len()).map(|i| format!("{} 0 R", page_no(i))).collect();
    let mut objects: Vec<Vec<u8>> = vec![
        b"<< /Type /Catalog /Pages 2 0 R >>".to_vec(),
        format!("<< /Type /Pages /Kids [{}] /Count {} >>", kids.join(" "), pages.len()).into_bytes(),
        [b"<< /Title ".to_vec(), page::words_of(title), b" >>".to_vec()].concat(),
        type_of("Helvetica").into_bytes(),
        type_of("Helvetica-Bold").into_bytes(),
    ];
    for (i, page) in pages.iter().enumerate() {
        let [width, height] = page.size_in.map(|inches| inches * POINTS_PER_IN);
        let stream = page_no(i) + 1;
        objects.push(
            format!(
                "<< /Type /Page /Parent 2 0 R /MediaBox [0 0 {width:.3} {height:.3}] /Contents {stream} 0 R \
                 /Resources << /Font << /F0 4 0 R /F1 5 0 R >> >> >>"
            )
            .into_bytes(),
        );
        let drawn = page.stream();
        let head = format!("<< /Length {} >>\nstream\n", drawn.len()).into_bytes();
        objects.push([head, drawn, b"\nendstream".to_vec()].concat());
    }
    file_of(&objects)
}

fn type_of(name: &str) -> String {
    format!("<< /Type /Font /Subtype /Type1 /BaseFont /{name} /Encoding /WinAnsiEncoding >>")
}

/// The objects one after the other, and where each begins.
fn file_of(objects: &[Vec<u8>]) -> Vec<u8> {
    let mut out = b"%PDF-1.4\n%\xe2\xe3\xcf\xd3\n".to_vec();
    let mut table = String::from("0000000000 65535 f \n");
    for (i, object) in objects.iter().enumerate() {
        let _ = writeln!(table, "{:010} 00000 n ", out.len());
        out.extend(format!("{} 0 obj\n", i + 1).into_bytes());
        out.extend(object);
        out.extend(b"\nendobj\n");
    }
    let (begins, count) = (out.len(), objects.len() + 1);
    out.extend(format!("xref\n0 {count}\n{table}").into_bytes());
    let trailer =
        format!("trailer\n<< /Size {count} /Root 1 0 R /Info 3 0 R >>\nstartxref\n{begins}\n%%EOF\n");
    out.extend(trailer.into_bytes());
    out
}
