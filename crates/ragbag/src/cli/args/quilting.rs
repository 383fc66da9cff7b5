//! What can be typed about quilting.

use clap::{Args, ValueEnum};
use papers::Paper;
use papers::dxf::DxfUnit;
use quilt::stage::quilting::DesignKind;
use std::path::PathBuf;

#[derive(Debug, Args)]
pub(crate) struct LinesArgs {
    /// The file; its ending tells: .svg or .dxf in true size, .pdf for a paper guide.
    #[arg(long)]
    pub(crate) to: PathBuf,
    /// What a unit of a DXF is.
    #[arg(long, default_value = "inch")]
    pub(crate) unit: UnitArg,
    /// The paper of a guide: a4, letter, legal, a3, or WIDTHxHEIGHT.
    #[arg(long, default_value = "a4", value_name = "SIZE")]
    pub(crate) paper: Paper,
    /// A guide with tiles in true size too.
    #[arg(long)]
    pub(crate) true_size: bool,
}

#[derive(Clone, Copy, Debug, ValueEnum)]
pub(crate) enum UnitArg {
    /// Inches.
    Inch,
    /// Millimetres.
    Mm,
}

impl From<UnitArg> for DxfUnit {
    fn from(unit: UnitArg) -> Self {
        match unit {
            UnitArg::Inch => Self::Inch,
            UnitArg::Mm => Self::Millimetre,
        }
    }
}

#[derive(Debug, Args)]
pub(crate) struct DesignsArgs {
    /// Which designs; all when none is said.
    pub(crate) designs: Vec<DesignArg>,
    /// How far apart rows are; as chosen when not said.
    #[arg(long)]
    pub(crate) spacing: Option<String>,
    /// The back instead of the front.
    #[arg(long)]
    pub(crate) back: bool,
    /// Flat colours instead of pictures.
    #[arg(long)]
    pub(crate) flat: bool,
    /// A file with their pictures side by side; its ending tells: .svg or .png.
    #[arg(long)]
    pub(crate) to: Option<PathBuf>,
    /// Pixels an inch of a PNG.
    #[arg(long, default_value_t = 30.0)]
    pub(crate) pixels: f64,
}

#[derive(Clone, Copy, Debug, ValueEnum)]
pub(crate) enum DesignArg {
    /// A round spiral.
    RoundSpiral,
    /// A spiral of straight sides.
    CorneredSpiral,
    /// From a circle to the outline in one stroke.
    UnbrokenSpiral,
    /// Straight lines.
    Lines,
    /// Two sets of straight lines.
    Crossed,
    /// The outline again and again inward.
    Echoes,
    /// Waves side by side.
    Waves,
}

impl From<DesignArg> for DesignKind {
    fn from(design: DesignArg) -> Self {
        match design {
            DesignArg::RoundSpiral => Self::RoundSpiral,
            DesignArg::CorneredSpiral => Self::CorneredSpiral,
            DesignArg::UnbrokenSpiral => Self::UnbrokenSpiral,
            DesignArg::Lines => Self::Lines,
            DesignArg::Crossed => Self::Crossed,
            DesignArg::Echoes => Self::Echoes,
            DesignArg::Waves => Self::Waves,
        }
    }
}
