//! A quilt as one file: a zip of `quilt.json` and the pictures of its cloth. `docs/FORMAT.md`
//! describes it.

mod form;
mod gather;
mod problem;
mod read;
mod take_in;

pub use problem::BundleProblem;
pub use take_in::ImportReport;

use crate::error::{Result, WorkroomError};
use crate::pictures::hash_of;
use crate::store::durable;
use crate::workroom::Workroom;
use std::io::{Cursor, Write};
use std::path::Path;
use zip::write::SimpleFileOptions;

/// The version of the form that is written.
pub const BUNDLE_VERSION: u32 = 1;

/// The name of the document in the zip.
const DOCUMENT: &str = "quilt.json";

impl Workroom {
    /// A quilt with all its heads, its wish, and the cloth it uses, as the bytes of one file. The
    /// same quilt gives the same bytes. They are read back before they are given.
    ///
    /// # Errors
    /// No such quilt; a picture that is gone; [`BundleProblem::NotReadBack`].
    pub fn export(&mut self, quilt: &str) -> Result<Vec<u8>> {
        let document = self.gather(quilt)?;
        let mut zip = zip::ZipWriter::new(Cursor::new(Vec::new()));
        let json = serde_json::to_vec_pretty(&document)
            .map_err(|e| WorkroomError::damaged(format!("the quilt can't be written: {e}")))?;
        put(&mut zip, DOCUMENT, &json, zip::CompressionMethod::Deflated)?;
        for picture in &document.pictures {
            let (bytes, format) = self
                .picture(&picture.hash)?
                .ok_or_else(|| WorkroomError::damaged(format!("the picture {} is gone", picture.hash)))?;
            let name = format!("pictures/{}.{format}", hash_of(&bytes));
            put(&mut zip, &name, &bytes, zip::CompressionMethod::Stored)?;
        }
        let bytes = zip.finish().map_err(BundleProblem::from)?.into_inner();
        match read::read(&bytes) {
            Ok(_) => Ok(bytes),
            Err(why) => Err(BundleProblem::NotReadBack(quilt.to_owned(), why.to_string()).into()),
        }
    }

    /// Writes a quilt to a file: whole, or not at all.
    ///
    /// # Errors
    /// As [`Workroom::export`]; a file that can't be written.
    pub fn export_to(&mut self, quilt: &str, file: &Path) -> Result<()> {
        let bytes = self.export(quilt)?;
        durable::write(file, &bytes)
    }

    /// Reads a quilt from a file; see [`Workroom::import`].
    ///
    /// # Errors
    /// As [`Workroom::import`]; a file that can't be read.
    pub fn import_from(&mut self, file: &Path, name: Option<&str>) -> Result<ImportReport> {
        let trouble = |e| WorkroomError::file(file, e);
        let size = std::fs::metadata(file).map_err(trouble)?.len();
        if size > read::MOST_FILE_BYTES {
            return Err(
                BundleProblem::TooLarge { what: "the file".to_owned(), most: read::MOST_FILE_BYTES }.into()
            );
        }
        self.import(&std::fs::read(file).map_err(trouble)?, name)
    }
}

fn put(
    zip: &mut zip::ZipWriter<Cursor<Vec<u8>>>,
    name: &str,
    bytes: &[u8],
    method: zip::CompressionMethod,
) -> Result<()> {
    let options = SimpleFileOptions::default()
        .compression_method(method)
        .last_modified_time(zip::DateTime::default())
        .unix_permissions(0o644);
    zip.start_file(name, options).map_err(BundleProblem::from)?;
    zip.write_all(bytes).map_err(|e| BundleProblem::Zip(e.to_string()))?;
    Ok(())
}
