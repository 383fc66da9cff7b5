//! Brightness of a picture, and its halves.

use crate::Picture;
use crate::light::light_of;

/// One number a pixel, rows from the top, as a screen's numbers go.
#[derive(Clone, Debug)]
pub(crate) struct Grey {
    pub(crate) width: usize,
    pub(crate) height: usize,
    pub(crate) values: Vec<u8>,
}

impl Grey {
    pub(crate) fn of(picture: &Picture) -> Self {
        let brightness = |p: &[u8; 3]| {
            let [r, g, b] = p.map(u32::from);
            ((77 * r + 150 * g + 29 * b + 128) >> 8) as u8
        };
        Self {
            width: picture.width as usize,
            height: picture.height as usize,
            values: picture.rgb.iter().map(brightness).collect(),
        }
    }

    /// Every two by two pixels as one.
    pub(crate) fn halved(&self) -> Self {
        let (width, height) = (self.width / 2, self.height / 2);
        let mut values = Vec::with_capacity(width * height);
        for y in 0..height {
            let upper = &self.values[2 * y * self.width..][..2 * width];
            let lower = &self.values[(2 * y + 1) * self.width..][..2 * width];
            let (upper, _) = upper.as_chunks::<2>();
            let (lower, _) = lower.as_chunks::<2>();
            let mean = |(a, b): (&[u8; 2], &[u8; 2])| {
                ((u16::from(a[0]) + u16::from(a[1]) + u16::from(b[0]) + u16::from(b[1]) + 2) / 4) as u8
            };
            values.extend(upper.iter().zip(lower).map(mean));
        }
        Self { width, height, values }
    }

    /// Light at a place in pixels, 0 to 1, between the four nearest pixels; None outside.
    #[inline]
    pub(crate) fn light(&self, x: f64, y: f64) -> Option<f64> {
        let (x, y) = (x - 0.5, y - 0.5);
        if !(x >= 0.0 && y >= 0.0) {
            return None;
        }
        let (i, j) = (x as usize, y as usize);
        if i + 1 >= self.width || j + 1 >= self.height {
            return None;
        }
        let (u, v) = ((x - i as f64) as f32, (y - j as f64) as f32);
        let at = j * self.width + i;
        let light = |k: usize| light_of(self.values[k]);
        let upper = light(at) + (light(at + 1) - light(at)) * u;
        let at = at + self.width;
        let lower = light(at) + (light(at + 1) - light(at)) * u;
        Some(f64::from(upper + (lower - upper) * v))
    }
}
