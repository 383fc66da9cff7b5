//! Colours of a picture with a colour profile (phones' pictures mostly are Display P3), as sRGB.

use image::RgbImage;
use moxcms::{ColorProfile, DataColorSpace, Layout, TransformOptions};

/// Turns the picture's numbers into sRGB. A profile that makes no sense, or isn't one of red, green and blue,
/// changes nothing.
pub(super) fn to_srgb(image: &mut RgbImage, profile: &[u8]) {
    let Ok(profile) = ColorProfile::new_from_slice(profile) else { return };
    if profile.color_space != DataColorSpace::Rgb {
        return;
    }
    let srgb = ColorProfile::new_srgb();
    let options = TransformOptions::default();
    let Ok(transform) = profile.create_transform_8bit(Layout::Rgb, &srgb, Layout::Rgb, options) else {
        return;
    };
    let row_length = 3 * image.width() as usize;
    let mut before = vec![0; row_length];
    for row in image.chunks_exact_mut(row_length.max(1)) {
        before.copy_from_slice(row);
        if transform.transform(&before, row).is_err() {
            row.copy_from_slice(&before);
        }
    }
}
