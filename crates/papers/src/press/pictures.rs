//! Pictures of cloth as they are kept in a file: cut to what is seen, no finer than paper needs, each once.

use crate::paint::FindPicture;
use crate::source::Source;
use drawing::PictureItem;
use krilla::image::Image;
use quilt::cloth::Picture;
use std::collections::BTreeMap;

/// What was read and cut so far.
pub(super) struct Pictures<'a> {
    find: FindPicture<'a>,
    sources: BTreeMap<SourceKey, Option<Source>>,
    parts: BTreeMap<(SourceKey, PartKey), Option<(Picture, Image)>>,
}

/// A file at a fineness: its name, its size, pixels an inch there and so many halvings.
type SourceKey = (String, [u32; 2], u64, i32);
/// Where the picture lies on its cloth and which part of it is seen, in 1/64 inch.
type PartKey = [i64; 6];

impl<'a> Pictures<'a> {
    pub(super) fn new(find: FindPicture<'a>) -> Self {
        Self { find, sources: BTreeMap::new(), parts: BTreeMap::new() }
    }

    /// The part of a picture that an item shows, at least so many pixels an inch of the cloth where the picture
    /// has them; `None` when the picture can't be had.
    pub(super) fn part(&mut self, item: &PictureItem, wanted_per_in: f64) -> Option<(Picture, Image)> {
        let whole = &item.picture;
        // Scales within a factor of two share a part.
        let octave = (wanted_per_in.max(1.0).log2()).ceil() as i32;
        let key = (whole.hash.clone(), whole.size_px, whole.pixels_per_in.to_bits(), octave);
        let seen = item.placement.inverse().apply_all(&item.clip.outer);
        let (lo, hi) = plane::polygon::bounds(&seen)?;
        let corner = whole.top_left;
        let place = [corner.x, corner.y, lo.x, lo.y, hi.x, hi.y].map(|inches| (inches * 64.0).round() as i64);
        if let Some(known) = self.parts.get(&(key.clone(), place)) {
            return known.clone();
        }
        let find = self.find;
        let source = self.sources.entry(key.clone()).or_insert_with(|| {
            find(whole).and_then(|file| Source::read(whole, &file, f64::from(octave).exp2()))
        });
        let part = source.as_ref().and_then(|source| source.jpeg(item)).and_then(|(picture, file)| {
            Image::from_jpeg(file.into(), true).ok().map(|image| (picture, image))
        });
        self.parts.insert((key, place), part.clone());
        part
    }
}
