//! The photographs that can still be asked for: those being read, and the last few that were.

use crate::server::error::ApiError;
use plane::Region;
use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, MutexGuard, OnceLock, PoisonError};
use workroom::photo::{FromAbove, PhotoRead, Reading};

/// How many photographs that were read are remembered, and most bytes of memory for all of them. The page
/// reads two ahead of what is dealt with; the largest pictures have 240 million bytes.
const KEPT: usize = 4;
const MOST_HELD: usize = 500_000_000;

/// Most photographs that are read at the same time: each takes some hundred million bytes.
pub(super) const AT_ONCE: usize = 2;

/// A photograph, as seen by whoever reads it and by whoever looks.
#[derive(Default)]
pub(in crate::server) struct Photo {
    pub(super) name: String,
    /// How far it has come while it is read.
    pub(super) reading: Mutex<Option<Reading>>,
    pub(super) end: OnceLock<Result<Read, ApiError>>,
}

impl Photo {
    /// Notes how far it has come.
    pub(super) fn comes_to(&self, reading: Reading) {
        *self.reading.lock().unwrap_or_else(PoisonError::into_inner) = Some(reading);
    }

    /// What is being done with it, in words.
    pub(super) fn doing(&self) -> Option<&'static str> {
        let reading = *self.reading.lock().unwrap_or_else(PoisonError::into_inner);
        reading.filter(|_| self.end.get().is_none()).map(Reading::words)
    }
}

/// What was read, and what the maker has put right since.
pub(in crate::server) struct Read {
    pub(super) read: PhotoRead,
    pub(super) from_above: FromAbove,
    corrected: Mutex<BTreeMap<usize, Region>>,
}

impl Read {
    pub(super) fn new(read: PhotoRead, from_above: FromAbove) -> Self {
        Self { read, from_above, corrected: Mutex::default() }
    }

    /// Bytes of memory, the picture's alone.
    fn held(&self) -> usize {
        let [width, height] = self.read.measured.size_px.map(|side| side as usize);
        3 * width * height + self.from_above.png.len()
    }

    /// Outlines that the maker has put right, by the cloths' places.
    pub(super) fn corrected(&self) -> MutexGuard<'_, BTreeMap<usize, Region>> {
        self.corrected.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

/// All photographs of this program that are remembered, by number.
#[derive(Default)]
pub(crate) struct Photos {
    last: u64,
    all: BTreeMap<u64, Arc<Photo>>,
}

impl Photos {
    /// A new photograph, unless enough of them are being read already.
    pub(in crate::server) fn begin(&mut self, name: &str) -> Option<(u64, Arc<Photo>)> {
        let ended: Vec<u64> =
            self.all.iter().filter(|(_, photo)| photo.end.get().is_some()).map(|(no, _)| *no).collect();
        if self.all.len() - ended.len() >= AT_ONCE {
            return None;
        }
        for (old, left) in ended.iter().zip((1..=ended.len()).rev()) {
            if left < KEPT && self.held() <= MOST_HELD {
                break;
            }
            self.all.remove(old);
        }
        self.last += 1;
        let photo = Arc::new(Photo { name: name.to_owned(), ..Photo::default() });
        self.all.insert(self.last, Arc::clone(&photo));
        Some((self.last, photo))
    }

    /// Bytes of memory that are held by what was read.
    fn held(&self) -> usize {
        let read = self.all.values().filter_map(|photo| photo.end.get()?.as_ref().ok());
        read.map(Read::held).sum()
    }

    /// A photograph by its number.
    pub(super) fn get(&self, number: u64) -> Option<Arc<Photo>> {
        self.all.get(&number).cloned()
    }

    /// Forgets one that was read, if it is there.
    pub(super) fn forget(&mut self, number: u64) -> Option<()> {
        self.all.get(&number)?.end.get()?;
        self.all.remove(&number).map(drop)
    }

    /// Remembers one again, of which nothing came.
    pub(super) fn put_back(&mut self, number: u64, photo: &Arc<Photo>) {
        self.all.insert(number, Arc::clone(photo));
    }
}
