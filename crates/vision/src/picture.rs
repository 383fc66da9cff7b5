//! What a camera saw.

/// A picture, upright, sRGB, eight bits a channel, rows from the top.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Picture {
    /// Pixels across.
    pub width: u32,
    /// Pixels down.
    pub height: u32,
    /// Red, green and blue of each pixel, row by row.
    pub rgb: Vec<[u8; 3]>,
}

impl Picture {
    /// The colour of a pixel, or of the nearest that there is; black where there is none at all.
    #[must_use]
    pub fn at(&self, x: i64, y: i64) -> [u8; 3] {
        let x = x.clamp(0, (i64::from(self.width) - 1).max(0));
        let y = y.clamp(0, (i64::from(self.height) - 1).max(0));
        let i = y * i64::from(self.width) + x;
        usize::try_from(i).ok().and_then(|i| self.rgb.get(i)).copied().unwrap_or_default()
    }
}
