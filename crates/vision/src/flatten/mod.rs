//! wip
pub(crate) mod homography;
