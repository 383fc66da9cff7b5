//! Writes contact sheets of all prints and of the demo's heap into a folder:
//! `cargo run -p demo --example sheet -- FOLDER`.

use demo::{Raster, low_tide, pictures, prints};
use std::error::Error;
use std::path::Path;

const PER_IN: f64 = 60.0;
const GROUND: [u8; 4] = [0xf4, 0xee, 0xe2, 0xff];

fn main() -> Result<(), Box<dyn Error>> {
    let folder = std::env::args().nth(1).ok_or("which folder? write it behind the command")?;
    let folder = Path::new(&folder);
    std::fs::create_dir_all(folder)?;
    write_prints(folder)?;
    write_heap(folder)
}

/// All prints, eight to a sheet, each 4 by 4 inches; and each repeat by itself.
fn write_prints(folder: &Path) -> Result<(), Box<dyn Error>> {
    let prints = prints(0);
    let (side, gap) = (240, 12);
    for (number, eight) in prints.chunks(8).enumerate() {
        let mut sheet = plain((side + gap) * 4 + gap, (side + gap) * 2 + gap);
        for (k, print) in eight.iter().enumerate() {
            let repeat = print.draw(PER_IN);
            let column = i64::from(gap) + (k as i64 % 4) * i64::from(side + gap);
            let row = i64::from(gap) + (k as i64 / 4) * i64::from(side + gap);
            sheet.place(&tiled(&repeat, side), column, row);
            let look = print.look();
            println!(
                "{:16} busy {:.2}, {} shades, {:?}",
                print.name,
                look.busy,
                look.shades.len(),
                print.repeat_in()
            );
        }
        std::fs::write(folder.join(format!("prints-{}.png", number + 1)), sheet.to_png()?)?;
    }
    Ok(())
}

/// All scraps of the heap at half size, in rows.
fn write_heap(folder: &Path) -> Result<(), Box<dyn Error>> {
    let heap = low_tide();
    println!("{} scraps, {:.0} square inches", heap.scraps.len(), heap.area());
    let mut sheet = plain(1600, 1900);
    let (mut column, mut row, mut tallest) = (10, 10, 0);
    for drawn in pictures(&heap)? {
        let small = halved(&drawn.raster);
        let (width, height) = (i64::from(small.width), i64::from(small.height));
        if column + width > i64::from(sheet.width) - 10 {
            (column, row, tallest) = (10, row + tallest + 8, 0);
        }
        sheet.place(&small, column, row);
        column += width + 8;
        tallest = tallest.max(height);
    }
    std::fs::write(folder.join("heap.png"), sheet.to_png()?)?;
    Ok(())
}

fn plain(width: u32, height: u32) -> Raster {
    let mut sheet = Raster::new(width, height);
    sheet.pixels.fill(GROUND);
    sheet
}

/// A square filled with a repeat.
fn tiled(repeat: &Raster, side: u32) -> Raster {
    let mut tile = Raster::new(side, side);
    for (index, pixel) in tile.pixels.iter_mut().enumerate() {
        let (column, row) = (index as u32 % side, index as u32 / side);
        let at = (row % repeat.height) * repeat.width + column % repeat.width;
        *pixel = repeat.pixels[at as usize];
    }
    tile
}

/// Half as wide and half as high; each pixel the mean of four.
fn halved(raster: &Raster) -> Raster {
    let mut small = Raster::new(raster.width / 2, raster.height / 2);
    let width = small.width as usize;
    for (index, pixel) in small.pixels.iter_mut().enumerate() {
        let (column, row) = (index % width * 2, index / width * 2);
        let four = [(0, 0), (1, 0), (0, 1), (1, 1)]
            .map(|(i, j)| raster.pixels[(row + j) * raster.width as usize + column + i]);
        let opacity: u32 = four.iter().map(|p| u32::from(p[3])).sum();
        let mean = |k: usize| {
            let sum: u32 = four.iter().map(|p| u32::from(p[k]) * u32::from(p[3])).sum();
            (sum / opacity.max(1)) as u8
        };
        *pixel = [mean(0), mean(1), mean(2), (opacity / 4) as u8];
    }
    small
}
