//! Picture files of every kind that is read, and of many that can't be: an upright picture or a clear
//! word, never a panic.

mod common;

use common::Dice;
use image::codecs::{jpeg::JpegEncoder, png::PngEncoder, webp::WebPEncoder};
use image::{
    DynamicImage, GrayAlphaImage, GrayImage, ImageEncoder, Luma, LumaA, Rgb, RgbImage, Rgba, RgbaImage,
};
use vision::{Picture, PictureProblem, decode};

const RED: [u8; 3] = [220, 30, 20];
const BLUE: [u8; 3] = [20, 40, 210];

/// Red above, blue below, 48 wide and 32 high.
fn flag() -> DynamicImage {
    RgbImage::from_fn(48, 32, |_, y| Rgb(if y < 16 { RED } else { BLUE })).into()
}

fn png(image: &DynamicImage) -> Vec<u8> {
    let mut bytes = Vec::new();
    image.write_with_encoder(PngEncoder::new(&mut bytes)).unwrap();
    bytes
}

fn webp(image: &DynamicImage) -> Vec<u8> {
    let mut bytes = Vec::new();
    image.write_with_encoder(WebPEncoder::new_lossless(&mut bytes)).unwrap();
    bytes
}

/// With the orientation tag (TIFF 6.0, tag 274; big-endian), where there is one.
fn jpeg(image: &DynamicImage, orientation: Option<u8>) -> Vec<u8> {
    let mut bytes = Vec::new();
    let mut encoder = JpegEncoder::new_with_quality(&mut bytes, 95);
    if let Some(orientation) = orientation {
        let tag =
            [b'M', b'M', 0, 42, 0, 0, 0, 8, 0, 1, 1, 18, 0, 3, 0, 0, 0, 1, 0, orientation, 0, 0, 0, 0, 0, 0];
        encoder.set_exif_metadata(tag.to_vec()).unwrap();
    }
    image.write_with_encoder(encoder).unwrap();
    bytes
}

fn near(a: [u8; 3], b: [u8; 3]) -> bool {
    a.iter().zip(b).all(|(a, b)| a.abs_diff(b) <= 6)
}

fn said(bytes: &[u8]) -> String {
    decode(bytes).unwrap_err().to_string()
}

#[test]
fn each_kind_gives_the_same_picture() {
    let image = flag();
    for bytes in [png(&image), webp(&image), jpeg(&image, None)] {
        let picture = decode(&bytes).unwrap();
        assert_eq!((picture.width, picture.height, picture.rgb.len()), (48, 32, 48 * 32));
        assert!(near(picture.at(24, 4), RED) && near(picture.at(24, 28), BLUE));
    }
}

#[test]
fn the_orientation_tag_is_obeyed() {
    // EXIF 2.3: 1 upright, 3 upside down, 6 to be turned clockwise by a quarter, 8 anticlockwise.
    let at = |orientation: u8, x: i64, y: i64| {
        let picture = decode(&jpeg(&flag(), Some(orientation))).unwrap();
        assert_eq!(picture.width == 48, orientation < 5, "{orientation}");
        picture.at(x, y)
    };
    assert!(near(at(1, 24, 4), RED) && near(at(3, 24, 4), BLUE));
    assert!(near(at(6, 28, 24), RED) && near(at(6, 4, 24), BLUE));
    assert!(near(at(8, 4, 24), RED) && near(at(8, 28, 24), BLUE));
    // A tag that means nothing is passed over.
    assert!(near(at(0, 24, 4), RED));
}

#[test]
fn sixteen_bits_grey_and_glass_become_eight_bits_of_colour() {
    let deep = DynamicImage::ImageRgb16(image::ImageBuffer::from_pixel(20, 20, Rgb([65_535, 32_896, 0])));
    let grey: DynamicImage = GrayImage::from_pixel(20, 20, Luma([77])).into();
    let glass: DynamicImage = RgbaImage::from_pixel(20, 20, Rgba([0, 0, 0, 51])).into();
    let thin: DynamicImage = GrayAlphaImage::from_pixel(20, 20, LumaA([90, 255])).into();
    let wanted = [(deep, [255, 128, 0]), (grey, [77; 3]), (glass, [204; 3]), (thin, [90; 3])];
    for (image, colour) in wanted {
        assert_eq!(decode(&png(&image)).unwrap(), Picture { width: 20, height: 20, rgb: vec![colour; 400] });
    }
}

/// Light of a screen's number and back (IEC 61966-2-1).
fn light(number: u8) -> f64 {
    let v = f64::from(number) / 255.0;
    if v <= 0.040_45 { v / 12.92 } else { ((v + 0.055) / 1.055).powf(2.4) }
}

fn number(light: f64) -> f64 {
    let light = light.clamp(0.0, 1.0);
    255.0 * if light <= 0.003_130_8 { 12.92 * light } else { 1.055 * light.powf(1.0 / 2.4) - 0.055 }
}

#[test]
fn a_colour_profile_is_obeyed() {
    // Display P3 to sRGB in light: W3C, CSS Color Module Level 4, section 18, sample code (the product of
    // its two matrices, to four places).
    let matrix = [[1.2249, -0.2249, 0.0], [-0.0421, 1.0421, 0.0], [-0.0196, -0.0786, 1.0983]];
    let profile = moxcms::ColorProfile::new_display_p3().encode().unwrap();
    for colour in [[200, 100, 60], [90, 140, 80], [60, 70, 160], [255, 255, 255], [128, 128, 128]] {
        let mut bytes = Vec::new();
        let mut encoder = PngEncoder::new(&mut bytes);
        encoder.set_icc_profile(profile.clone()).unwrap();
        DynamicImage::from(RgbImage::from_pixel(20, 20, Rgb(colour))).write_with_encoder(encoder).unwrap();
        let seen = decode(&bytes).unwrap().at(10, 10);
        for (row, seen) in matrix.iter().zip(seen) {
            let wanted = number(row.iter().zip(colour).map(|(m, c)| m * light(c)).sum());
            assert!((wanted - f64::from(seen)).abs() < 2.0, "{colour:?}: {wanted} {seen}");
        }
    }
    // A profile that can't be read is no reason to lose a picture.
    let mut bytes = Vec::new();
    let mut encoder = PngEncoder::new(&mut bytes);
    encoder.set_icc_profile(vec![7; 200]).unwrap();
    flag().write_with_encoder(encoder).unwrap();
    assert!(near(decode(&bytes).unwrap().at(24, 4), RED));
}

#[test]
fn what_is_no_picture_is_said_to_be_none() {
    assert_eq!(decode(&[]), Err(PictureProblem::Empty));
    assert_eq!(decode(b"Dear all, here is my quilt."), Err(PictureProblem::NotAPicture));
    assert!(said(b"\0\0\0\x18ftypheic\0\0\0\0").contains("HEIC"));
    assert!(said(b"\0\0\0\x18ftypmif1\0\0\0\0").contains("HEIC"));
    assert!(said(b"\0\0\0\x18ftypavif\0\0\0\0").contains("AVIF"));
    assert!(said(b"\0\0\0\x18ftypmp42\0\0\0\0").contains("film"));
    assert!(said(b"GIF89a").contains("GIF"));
    assert!(said(b"%PDF-1.7").contains("PDF"));
}

#[test]
fn printing_inks_are_refused() {
    // A JPEG frame (ITU-T T.81, B.2.2) of four channels.
    let mut bytes = b"\xff\xd8\xff\xc0\x00\x14\x08\x00\x20\x00\x30\x04".to_vec();
    bytes.extend([1, 0x11, 0, 2, 0x11, 0, 3, 0x11, 0, 4, 0x11, 0]);
    assert_eq!(decode(&bytes), Err(PictureProblem::Inks));
}

#[test]
fn sizes_are_bounded_before_anything_is_unpacked() {
    // The size stands in the first chunk of a PNG (its header, ISO/IEC 15948), with a sum after it.
    let mut bytes = png(&flag());
    bytes[16..20].copy_from_slice(&20_000_u32.to_be_bytes());
    bytes[20..24].copy_from_slice(&10_000_u32.to_be_bytes());
    let sum = crc(&bytes[12..29]);
    bytes[29..33].copy_from_slice(&sum.to_be_bytes());
    assert_eq!(decode(&bytes), Err(PictureProblem::TooLarge { width: 20_000, height: 10_000 }));
    assert!(said(&bytes).contains("20000 by 10000"));
    let tiny: DynamicImage = RgbImage::new(48, 3).into();
    assert_eq!(decode(&png(&tiny)), Err(PictureProblem::TooSmall { width: 48, height: 3 }));
}

/// The sum of a PNG chunk (ISO/IEC 15948, annex D).
fn crc(bytes: &[u8]) -> u32 {
    let byte = |sum: u32, byte: &u8| {
        (0..8).fold(sum ^ u32::from(*byte), |c, _| if c & 1 == 1 { 0xedb8_8320 ^ (c >> 1) } else { c >> 1 })
    };
    !bytes.iter().fold(!0, byte)
}

/// A picture with much in it, so that its file is long.
fn busy() -> DynamicImage {
    let mut dice = Dice::new(3);
    RgbImage::from_fn(120, 90, |_, _| Rgb([0; 3].map(|_: u8| (dice.share() * 256.0) as u8))).into()
}

#[test]
fn files_cut_off_anywhere_are_refused() {
    let image = busy();
    for bytes in [png(&image), webp(&image), jpeg(&image, Some(6))] {
        assert!(decode(&bytes).is_ok() && bytes.len() > 5000);
        let mut cut = 0;
        // The last few bytes of a PNG or WebP are no part of the picture.
        for length in (0..bytes.len() - 16).step_by(97) {
            let problem = decode(&bytes[..length]).expect_err("a cut file was read");
            cut += usize::from(problem == PictureProblem::Truncated);
        }
        let all = (bytes.len() - 16).div_ceil(97);
        assert!(cut * 10 > all * 8, "only {cut} of {all} were said to be cut off");
    }
}

#[test]
fn bytes_of_chance_never_panic() {
    let mut dice = Dice::new(4);
    let image = busy();
    let files = [png(&image), webp(&image), jpeg(&image, Some(3))];
    let (mut read, mut refused) = (0, 0);
    for round in 0..600 {
        let mut bytes = files[round % 3].clone();
        let changes = 1 + (dice.share() * 20.0) as usize;
        for _ in 0..changes {
            // Mostly near the front, where sizes and tables stand.
            let reach = if dice.share() < 0.7 { 200 } else { bytes.len() };
            let at = (dice.share() * reach as f64) as usize;
            bytes[at] = (dice.share() * 256.0) as u8;
        }
        match decode(&bytes) {
            Ok(picture) => {
                assert_eq!(picture.rgb.len(), picture.width as usize * picture.height as usize);
                read += 1;
            }
            Err(problem) => {
                // A decoder that breaks off is caught, but counts as a fault here.
                let told = problem.to_string();
                assert!(!told.is_empty() && !told.contains("broke off"), "{told}");
                refused += 1;
            }
        }
    }
    for _ in 0..300 {
        let length = (dice.share() * 300.0) as usize;
        let chance: Vec<u8> = (0..length).map(|_| (dice.share() * 256.0) as u8).collect();
        for front in [&b"\xff\xd8\xff"[..], b"\x89PNG\r\n\x1a\n", b"RIFF\x40\0\0\0WEBPVP8 ", b""] {
            refused += usize::from(decode(&[front, &chance].concat()).is_err());
        }
    }
    println!("{read} read, {refused} refused");
    assert!(refused > 1000);
}
