//! A cloth's picture as pixels, no finer than is needed, and the part of it that a patch shows.

use crate::png::{LARGEST_PIXELS, pixels_of_image};
use drawing::PictureItem;
use plane::{Point, polygon};
use quilt::cloth::Picture;
use resvg::tiny_skia::{IntRect, Pixmap, PremultipliedColorU8};

/// A picture, read and made coarser once for all patches that show it.
pub(crate) struct Source {
    pixels: Pixmap,
    pixels_per_in: f64,
}

impl Source {
    /// Reads a picture's file; `None` when it can't be read, or is too large to be. Pixels more
    /// than twice as fine as `wanted_per_in` are averaged by whole numbers.
    pub(crate) fn read(picture: &Picture, file: &[u8], wanted_per_in: f64) -> Option<Self> {
        let [width, height] = picture.size_px.map(f64::from);
        let sound = picture.pixels_per_in.is_finite() && picture.pixels_per_in > 0.0;
        if !sound || width < 1.0 || height < 1.0 || width * height > LARGEST_PIXELS {
            return None;
        }
        let pixels = pixels_of_image(file, picture.size_px)?;
        let factor = (picture.pixels_per_in / wanted_per_in).floor().clamp(1.0, 64.0) as u32;
        let (pixels, factor) = match factor {
            1 => (pixels, 1),
            more => (averaged(&pixels, more)?, more),
        };
        Some(Self { pixels, pixels_per_in: picture.pixels_per_in / f64::from(factor) })
    }

    /// What `item` shows of this picture, as a picture of its own with the bytes of its file;
    /// `None` when it shows nothing of it. Where the picture lies on its cloth the item says: scraps
    /// of one print share the file, and each lies on it in its own place.
    pub(crate) fn part(&self, item: &PictureItem, hash: String) -> Option<(Picture, Vec<u8>)> {
        let (picture, pixels) = self.seen(item, hash)?;
        Some((picture, pixels.encode_png().ok()?))
    }

    /// The same as a JPEG, calico where the picture is clear.
    pub(crate) fn jpeg(&self, item: &PictureItem) -> Option<(Picture, Vec<u8>)> {
        let (picture, pixels) = self.seen(item, String::new())?;
        let ground = drawing::CALICO;
        let opaque: Vec<u8> = pixels
            .pixels()
            .iter()
            .flat_map(|p| {
                let clear = u32::from(255 - p.alpha());
                let over = |part: u8, ground: u8| {
                    (u32::from(part) + (u32::from(ground) * clear + 127) / 255).min(255) as u8
                };
                [over(p.red(), ground.r), over(p.green(), ground.g), over(p.blue(), ground.b)]
            })
            .collect();
        let [width, height] = picture.size_px.map(|px| u16::try_from(px).ok());
        let mut file = Vec::new();
        let encoder = jpeg_encoder::Encoder::new(&mut file, JPEG_QUALITY);
        encoder.encode(&opaque, width?, height?, jpeg_encoder::ColorType::Rgb).ok()?;
        Some((picture, file))
    }

    fn seen(&self, item: &PictureItem, hash: String) -> Option<(Picture, Pixmap)> {
        let seen = item.placement.inverse().apply_all(&item.clip.outer);
        let (lo, hi) = polygon::bounds(&seen).filter(|(lo, hi)| lo.is_finite() && hi.is_finite())?;
        let corner = item.picture.top_left;
        let held = |px: f64, most: u32| px.clamp(0.0, f64::from(most)) as u32;
        let (width, height) = (self.pixels.width(), self.pixels.height());
        let x = |at: f64, spare: f64| held(((at - corner.x) * self.pixels_per_in).round() + spare, width);
        let y = |at: f64, spare: f64| held(((corner.y - at) * self.pixels_per_in).round() + spare, height);
        let (left, right) = (x(lo.x, -SPARE_PX), x(hi.x, SPARE_PX));
        let (top, bottom) = (y(hi.y, -SPARE_PX), y(lo.y, SPARE_PX));
        if left >= right || top >= bottom {
            return None;
        }
        let (left_px, top_px) = (i32::try_from(left).ok()?, i32::try_from(top).ok()?);
        let part = IntRect::from_xywh(left_px, top_px, right - left, bottom - top)?;
        let pixels = self.pixels.clone_rect(part)?;
        let shift = |px: u32| f64::from(px) / self.pixels_per_in;
        let picture = Picture {
            hash,
            format: "png".to_owned(),
            pixels_per_in: self.pixels_per_in,
            top_left: Point::new(corner.x + shift(left), corner.y - shift(top)),
            size_px: [pixels.width(), pixels.height()],
        };
        Some((picture, pixels))
    }
}

/// How well pictures are kept in a JPEG, of 100.
const JPEG_QUALITY: u8 = 85;

/// Pixels beyond the edge of a part, for smoothing between pixels.
const SPARE_PX: f64 = 3.0;

/// Averages squares of `factor` by `factor` pixels; what is left over at the far edges is dropped
/// as long as something remains.
fn averaged(pixels: &Pixmap, factor: u32) -> Option<Pixmap> {
    let (width, height) = ((pixels.width() / factor).max(1), (pixels.height() / factor).max(1));
    let mut small = Pixmap::new(width, height)?;
    let out = small.pixels_mut();
    for y in 0..height {
        for x in 0..width {
            let index = (y * width + x) as usize;
            if let Some(out) = out.get_mut(index) {
                *out = mean(pixels, x * factor, y * factor, factor);
            }
        }
    }
    Some(small)
}

fn mean(pixels: &Pixmap, left: u32, top: u32, factor: u32) -> PremultipliedColorU8 {
    let (mut sum, mut count) = ([0_u32; 4], 0);
    for y in top..(top + factor).min(pixels.height()) {
        let start = (y * pixels.width() + left) as usize;
        let most = (pixels.width() - left).min(factor) as usize;
        for p in pixels.pixels().get(start..start + most).unwrap_or_default() {
            let parts = [p.red(), p.green(), p.blue(), p.alpha()].map(u32::from);
            sum.iter_mut().zip(parts).for_each(|(sum, part)| *sum += part);
            count += 1;
        }
    }
    let [r, g, b, a] = sum.map(|sum| ((sum + count / 2) / count.max(1)) as u8);
    PremultipliedColorU8::from_rgba(r, g, b, a).unwrap_or(PremultipliedColorU8::TRANSPARENT)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn averaging_keeps_the_mean() {
        let mut pixels = Pixmap::new(6, 4).unwrap();
        for (i, p) in pixels.pixels_mut().iter_mut().enumerate() {
            *p = PremultipliedColorU8::from_rgba(i as u8 * 10, 0, 200, 255).unwrap();
        }
        let small = averaged(&pixels, 2).unwrap();
        assert_eq!((small.width(), small.height()), (3, 2));
        // Pixels 0, 1, 6 and 7 of the first two rows.
        assert_eq!(small.pixel(0, 0).map(|p| (p.red(), p.blue(), p.alpha())), Some((35, 200, 255)));
    }
}
