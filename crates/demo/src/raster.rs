//! A picture of so many pixels, and its PNG.

use crate::PictureProblem;

/// A picture, rows from the top, red, green, blue and opacity of eight bits each.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Raster {
    /// Pixels a row.
    pub width: u32,
    /// Rows.
    pub height: u32,
    /// The pixels, row by row from the top; opacity isn't multiplied in.
    pub pixels: Vec<[u8; 4]>,
}

impl Raster {
    /// A picture with nothing on it.
    #[must_use]
    pub fn new(width: u32, height: u32) -> Self {
        Self { width, height, pixels: vec![[0; 4]; width as usize * height as usize] }
    }

    /// The picture as the bytes of a PNG file; the same picture gives the same bytes.
    ///
    /// # Errors
    /// When it has no pixels.
    pub fn to_png(&self) -> Result<Vec<u8>, PictureProblem> {
        let mut bytes = Vec::new();
        let problem = |source| PictureProblem::Encoding { width: self.width, height: self.height, source };
        let mut encoder = png::Encoder::new(&mut bytes, self.width, self.height);
        encoder.set_color(png::ColorType::Rgba);
        encoder.set_depth(png::BitDepth::Eight);
        encoder.set_compression(png::Compression::Balanced);
        let mut writer = encoder.write_header().map_err(problem)?;
        writer.write_image_data(self.pixels.as_flattened()).map_err(problem)?;
        writer.finish().map_err(problem)?;
        Ok(bytes)
    }

    /// Lays another picture on top, its top left corner at a column and row that may lie outside.
    pub fn place(&mut self, other: &Self, column: i64, row: i64) {
        for (index, pixel) in other.pixels.iter().enumerate() {
            let across = column + (index % other.width.max(1) as usize) as i64;
            let down = row + (index / other.width.max(1) as usize) as i64;
            let inside =
                (0..i64::from(self.width)).contains(&across) && (0..i64::from(self.height)).contains(&down);
            if inside {
                let at = down as usize * self.width as usize + across as usize;
                self.pixels[at] = over(*pixel, self.pixels[at]);
            }
        }
    }
}

/// One pixel laid over another.
fn over(top: [u8; 4], below: [u8; 4]) -> [u8; 4] {
    let (a, b) = (f64::from(top[3]) / 255.0, f64::from(below[3]) / 255.0);
    let opacity = a + b * (1.0 - a);
    let mix = |i: usize| {
        let sum = f64::from(top[i]) * a + f64::from(below[i]) * b * (1.0 - a);
        (sum / opacity.max(1e-9)).round() as u8
    };
    [mix(0), mix(1), mix(2), (opacity * 255.0).round() as u8]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_png_reads_back_as_it_was() {
        let mut raster = Raster::new(3, 2);
        raster.pixels[4] = [10, 20, 30, 255];
        let bytes = raster.to_png().unwrap();
        let mut reader = png::Decoder::new(std::io::Cursor::new(bytes)).read_info().unwrap();
        let mut back = vec![0; 24];
        reader.next_frame(&mut back).unwrap();
        assert_eq!(back, raster.pixels.as_flattened());
        assert!(Raster::new(0, 0).to_png().is_err());
    }

    #[test]
    fn what_sticks_out_is_cut_off_and_what_is_clear_lets_through() {
        let mut page = Raster::new(2, 2);
        let mut patch = Raster::new(2, 2);
        patch.pixels = vec![[9, 9, 9, 255], [8, 8, 8, 255], [7, 7, 7, 255], [0, 0, 0, 0]];
        page.place(&patch, 1, 1);
        assert_eq!(page.pixels[3], [9, 9, 9, 255]);
        page.place(&patch, 0, 0);
        assert_eq!(page.pixels[3], [9, 9, 9, 255]);
    }
}
