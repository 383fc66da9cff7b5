//! Outlines typed by hand: a rectangle, or corner by corner.

use super::{IntakeProblem, described, read_size};
use crate::stash::NewCloth;
use plane::{Point, Region};
use quilt::length::Length;

/// Most corners of one outline.
pub(crate) const MOST_CORNERS: usize = 4_000;

/// A rectangle of this width (across the threads) and height (along them), with words for its
/// look.
///
/// # Errors
/// A length that can't be read, or is nothing, or absurd.
pub fn read_rectangle(words: &str, width: &str, height: &str) -> Result<NewCloth, IntakeProblem> {
    let (width_in, height_in) = (read_size(width, "the width")?, read_size(height, "the height")?);
    Ok(described(words, Region::rectangle(width_in, height_in)))
}

/// A polygon: corners in order, each `across,up`, as in `0,0 3,0 3,5 0,5` or
/// `0,0; 3 1/2,0; 3 1/2,12 cm; 0,5`. Corners are separated by semicolons or new lines if there are
/// any, by spaces if there aren't.
///
/// # Errors
/// A corner that can't be read; an outline that crosses itself or encloses nothing.
pub fn read_polygon(words: &str, corners: &str) -> Result<NewCloth, IntakeProblem> {
    let outline = Region { outer: read_corners(corners)?, holes: Vec::new() };
    Ok(described(words, outline))
}

/// The corners of an outline, written as for [`read_polygon`]: sound, counter-clockwise.
///
/// # Errors
/// As [`read_polygon`].
pub fn read_corners(corners: &str) -> Result<Vec<Point>, IntakeProblem> {
    let by_mark = corners.contains([';', '\n']);
    let split = |c: char| if by_mark { c == ';' || c == '\n' } else { c.is_whitespace() };
    let texts: Vec<&str> = corners.split(split).map(str::trim).filter(|t| !t.is_empty()).collect();
    if texts.len() > MOST_CORNERS {
        return Err(IntakeProblem::TooMuch {
            what: "the number of corners",
            found: texts.len(),
            most: MOST_CORNERS,
        });
    }
    let outer: Vec<Point> =
        texts.iter().enumerate().map(|(i, text)| read_corner(i + 1, text)).collect::<Result<_, _>>()?;
    let outline =
        Region::try_new(outer, Vec::new()).map_err(|problem| IntakeProblem::Outline { scrap: 0, problem })?;
    Ok(outline.outer)
}

fn read_corner(corner: usize, text: &str) -> Result<Point, IntakeProblem> {
    let (x, y) = text
        .split_once(',')
        .filter(|(_, y)| !y.contains(','))
        .ok_or_else(|| IntakeProblem::Corner { corner, text: text.to_owned() })?;
    let read = |text: &str, what| match Length::parse_signed(text) {
        Ok(length) if length.inches().abs() <= super::MOST_IN => Ok(length.inches()),
        Ok(_) => {
            let why = format!("that is more than {} inches: is the unit right?", super::MOST_IN);
            Err(IntakeProblem::Length { what, text: text.trim().to_owned(), why })
        }
        Err(e) => Err(IntakeProblem::Length { what, text: text.trim().to_owned(), why: e.to_string() }),
    };
    Ok(Point::new(read(x, "how far across")?, read(y, "how far up")?))
}
