//! What there is to see in a rendered photograph.

use super::camera::Camera;
use super::shot::Shot;
use crate::heap::turned;
use crate::print::Print;
use colour::Srgb;
use plane::{Point, Pose, Region, Turn};
use quilt::cloth::{Cloth, ClothId, Look, Runs};

/// Everything that is known about a rendered photograph. Inches are those of the table.
#[derive(Clone, Debug)]
pub struct Truth {
    /// From the table to the picture and back.
    pub camera: Camera,
    /// What camera and light did.
    pub shot: Shot,
    /// The colour of what everything lies on.
    pub mat: Srgb,
    /// Side of the cards' patterns in inches; 0 when there is none.
    pub card_side_in: f64,
    /// The cards.
    pub cards: Vec<CardThere>,
    /// The scraps, or the patches of a piece.
    pub cloths: Vec<ClothThere>,
    /// The raw outline of a piece, if it is the picture of one.
    pub piece: Option<Region>,
}

/// A card that lies there.
#[derive(Clone, Debug, PartialEq)]
pub struct CardThere {
    /// Its number.
    pub no: u16,
    /// The corners of its pattern on the table, in inches, anticlockwise from the lower left.
    pub corners_in: [Point; 4],
    /// The same in the picture, in pixels.
    pub corners_px: [Point; 4],
}

impl CardThere {
    pub(super) fn new(no: u16, corners_in: [Point; 4], camera: &Camera) -> Self {
        Self { no, corners_in, corners_px: corners_in.map(|corner| camera.to_picture(corner)) }
    }
}

/// A cloth that lies there: a scrap, or what shows of a patch.
#[derive(Clone, Debug)]
pub struct ClothThere {
    /// Which cloth it is or was cut from.
    pub cloth: ClothId,
    /// Its outline on the table, in inches; of a patch, what shows of it, raw edges included.
    pub outline: Region,
    /// Whether a part lies outside the picture.
    pub cut_off: bool,
    /// The number of its print.
    pub print: u64,
    /// The name of its print.
    pub print_name: String,
    /// How large what is printed is, in inches across.
    pub motif_in: f64,
    /// How far what is drawn leans from up the print, in degrees counter-clockwise.
    pub leans_deg: f64,
    /// How it looks, its directions as they lie on the table.
    pub look: Look,
}

impl ClothThere {
    pub(super) fn new(cloth: &Cloth, outline: Region, cut_off: bool, print: &Print, to_print: Pose) -> Self {
        let look = turned(print.look(), to_print.turn.inverse().then(Turn::QUARTER));
        let motif_in = print.motif_in();
        let leans_deg = print.leans_deg();
        let print_name = print.name.clone();
        Self { cloth: cloth.id, outline, cut_off, print: print.number, print_name, motif_in, leans_deg, look }
    }

    /// Which ways up it may be used, in the words of who looks at it: its angles are those on the
    /// table, along what is drawn where that leans, and of a print with a top its axis.
    #[must_use]
    pub fn runs(&self) -> vision::Runs {
        match self.look.runs {
            Runs::AnyWay => vision::Runs::AnyWay,
            Runs::BothWays(up) => {
                vision::Runs::BothWays { deg: (up.to_degrees() + self.leans_deg).rem_euclid(180.0) }
            }
            Runs::OneWay(up) => vision::Runs::OneWay { deg: up.to_degrees().rem_euclid(180.0) },
        }
    }
}
