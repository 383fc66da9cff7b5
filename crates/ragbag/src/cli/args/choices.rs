//! Words to choose from.

use clap::ValueEnum;

#[derive(Clone, Copy, Debug, ValueEnum)]
pub(crate) enum TurnArg {
    /// Any way round.
    Any,
    /// As it is, or upside down.
    Half,
    /// As it is.
    None,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum JoinArg {
    /// Square to the strip.
    Straight,
    /// At 45 degrees across it.
    Diagonal,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum YesNo {
    /// It is so.
    Yes,
    /// It isn't.
    No,
}

#[derive(Clone, Copy, Debug, ValueEnum)]
pub(crate) enum SoldByArg {
    /// By the eighth of a yard.
    EighthYard,
    /// By the quarter of a yard.
    QuarterYard,
    /// By ten centimetres.
    TenCm,
}

#[derive(Clone, Copy, Debug, ValueEnum)]
pub(crate) enum StageArg {
    /// Backing and batting.
    Layers,
    /// Quilting lines and thread.
    Quilting,
    /// Binding.
    Binding,
    /// The appliquéd figure.
    Figure,
}

#[derive(Clone, Copy, Debug, ValueEnum)]
pub(crate) enum SpiralArg {
    /// No order.
    None,
    /// Clockwise, seen from the front.
    Clockwise,
    /// Anticlockwise.
    Anticlockwise,
}

#[derive(Clone, Copy, Debug, ValueEnum)]
pub(crate) enum PressArg {
    /// Under what is added.
    Over,
    /// Under what was there.
    Back,
    /// One to each side.
    Open,
}

#[derive(Clone, Copy, Debug, ValueEnum)]
pub(crate) enum EffortArg {
    /// One move after the other.
    Quick,
    /// A second or two.
    Usual,
    /// Half a minute.
    Thorough,
}

#[derive(Clone, Copy, Debug, ValueEnum)]
pub(crate) enum DrawWhat {
    /// The front.
    Front,
    /// The back.
    Back,
    /// A cloth.
    Cloth,
}
