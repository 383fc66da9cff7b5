//! A drawing as PNG, with its pictures cut to what is seen.
//!
//! In SVG every patch refers to the whole picture of its cloth and clips it; painted that way the
//! whole picture is drawn for every patch. Here each patch gets its own part, no finer than the
//! paper, so that the cost follows the area that is seen.

use crate::png::size_px;
use crate::source::Source;
use crate::{Fonts, PaperProblem, png};
use drawing::svg::{Pictures, SvgOptions};
use drawing::{Drawing, Item, PictureItem, Shape};
use quilt::cloth::Picture;
use std::collections::BTreeMap;

/// Finds the file of a picture. A picture that isn't found is left out, and its cloth's mean
/// colour shows.
pub type FindPicture<'a> = &'a dyn Fn(&Picture) -> Option<Vec<u8>>;

/// A drawing as PNG, so many pixels an inch, on calico: whoever shows it needs no ground of their own. The
/// size in pixels is that of the page, rounded up. Words need `fonts`: without any they are left out.
///
/// # Errors
/// A scale that makes no picture, or more than [`crate::LARGEST_PIXELS`].
pub fn paint(
    drawing: &Drawing,
    pixels_per_in: f64,
    fonts: &Fonts,
    find: FindPicture<'_>,
) -> Result<Vec<u8>, PaperProblem> {
    size_px([drawing.width_in(), drawing.height_in()], pixels_per_in)?;
    let mut parts = Parts { find, pixels_per_in, sources: BTreeMap::new(), files: BTreeMap::new() };
    let items = drawing.items.iter().filter_map(|item| parts.cut(item)).collect();
    let drawing = Drawing { items, ..drawing.clone() }.on_calico();
    let options = SvgOptions { pictures: Pictures::Linked(""), ..SvgOptions::default() };
    let files = parts.files;
    png(&drawing.to_svg(&options), pixels_per_in, fonts, &|address| files.get(address).cloned())
}

/// A file at a scale. Wherever it lies on its cloths, it is read once.
type FileKey<'a> = (&'a str, [u32; 2], u64);

struct Parts<'a> {
    find: FindPicture<'a>,
    pixels_per_in: f64,
    /// Pictures read so far; `None` for those that can't be had.
    sources: BTreeMap<FileKey<'a>, Option<Source>>,
    /// The files of the parts, by address.
    files: BTreeMap<String, Vec<u8>>,
}

impl<'a> Parts<'a> {
    /// The item with its pictures cut to what is seen; `None` when nothing is.
    fn cut(&mut self, item: &'a Item) -> Option<Item> {
        let shape = match &item.shape {
            Shape::Picture(picture) => Shape::Picture(self.part(picture)?),
            Shape::Group { clip, items } => Shape::Group {
                clip: clip.clone(),
                items: items.iter().filter_map(|item| self.cut(item)).collect(),
            },
            Shape::Thread(thread) => Shape::Thread(thread.clone().told_apart(self.pixels_per_in)),
            Shape::Fill { .. } | Shape::Line { .. } | Shape::Text(_) => item.shape.clone(),
        };
        Some(Item { tag: item.tag.clone(), shape })
    }

    fn part(&mut self, item: &'a PictureItem) -> Option<PictureItem> {
        let (find, pixels_per_in) = (self.find, self.pixels_per_in);
        let whole = &item.picture;
        let source = self
            .sources
            .entry((&whole.hash, whole.size_px, whole.pixels_per_in.to_bits()))
            .or_insert_with(|| find(whole).and_then(|file| Source::read(whole, &file, pixels_per_in)));
        let (picture, file) = source.as_ref()?.part(item, format!("part-{}", self.files.len() + 1))?;
        self.files.insert(format!("{}.{}", picture.hash, picture.format), file);
        Some(PictureItem { picture: picture.into(), ..item.clone() })
    }
}
