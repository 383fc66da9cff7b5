//! Changing the wish of a quilt.

use super::error::Asked;
use crate::error::WorkroomError;
use crate::workroom::Workroom;
use quilt::wish::Wish;

impl Workroom {
    /// Keeps a wish with its quilt, if it makes sense.
    ///
    /// # Errors
    /// No such quilt; a value outside its limits; a cloth that was never in the stash.
    pub fn change_wish(&mut self, quilt: &str, wish: &Wish) -> Asked<()> {
        wish.check().map_err(WorkroomError::from)?;
        let stash = self.stash()?;
        let motif = wish.motif.iter().map(|motif| &motif.cloth);
        for cloth in wish.spare.iter().chain(&wish.use_up).chain(motif) {
            if stash.get(*cloth).is_none() {
                return Err(WorkroomError::NoSuchCloth(*cloth).into());
            }
        }
        Ok(self.set_wish(quilt, wish)?)
    }
}
