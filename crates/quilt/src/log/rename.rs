//! A step with other names in it: steps of one log brought into another.

use super::{Along, FrameStrip, Mark, Measured, Name, Sewing, Step};

impl Step {
    /// The same step, with the steps that it names called as `to` says.
    #[must_use]
    pub fn renamed(&self, to: &impl Fn(Mark) -> Mark) -> Self {
        let name = |name: Name| Name::new(to(name.by), name.no);
        let mut step = self.clone();
        match &mut step {
            Self::Lay { .. } | Self::Choose(_) | Self::Note(_) => {}
            Self::Sew(Sewing::Join { onto, with, .. }) => (*onto, *with) = (name(*onto), name(*with)),
            Self::Sew(Sewing::Close { seam }) => *seam = name(*seam),
            Self::Sew(Sewing::Frame { strips, .. }) => {
                for FrameStrip { onto, with, outer, .. } in strips {
                    (*onto, *with, *outer) = (name(*onto), name(*with), name(*outer));
                }
            }
            Self::Turn { top, .. } | Self::Aside { top } => *top = to(*top),
            Self::Cut { top, along, .. } => {
                *top = to(*top);
                match along {
                    Along::Side(side) | Along::From { side, .. } => *side = name(*side),
                }
            }
            Self::Measure { top, sides, .. } => {
                *top = to(*top);
                sides.iter_mut().for_each(|Measured { side, .. }| *side = name(*side));
            }
        }
        step
    }
}
