//! The type that words are set in.

use crate::PaperProblem;
use resvg::usvg::fontdb::{Database, Source};
use std::path::Path;
use std::sync::Arc;

/// Type families for drawings. Without any, drawings come out whole but without their words:
/// [`Fonts::is_empty`] says so beforehand.
#[derive(Clone, Debug, Default)]
pub struct Fonts {
    found: Arc<Database>,
    files: Vec<Arc<Vec<u8>>>,
}

impl Fonts {
    /// No type at all.
    #[must_use]
    pub fn none() -> Self {
        Self::default()
    }

    /// From files that were read already (TrueType or OpenType; collections too). What is no
    /// type is passed over.
    #[must_use]
    pub fn from_bytes(files: impl IntoIterator<Item = Vec<u8>>) -> Self {
        let files: Vec<Arc<Vec<u8>>> = files.into_iter().map(Arc::new).collect();
        let mut found = Database::new();
        // Files may be large: they are held once, for pages and pictures alike.
        for file in &files {
            let held: Arc<Vec<u8>> = Arc::clone(file);
            found.load_font_source(Source::Binary(held));
        }
        name_generics(&mut found);
        Self { found: Arc::new(found), files }
    }

    /// All `.ttf`, `.otf` and `.ttc` files of a folder and the folders in it, in the order of
    /// their names.
    ///
    /// # Errors
    /// When the folder or a file in it can't be read; or when it holds no type, because words would
    /// then be missing and nobody would know why.
    pub fn in_folder(folder: &Path) -> Result<Self, PaperProblem> {
        let mut files = Vec::new();
        collect(folder, &mut files, 4)?;
        let found = Self::from_bytes(files);
        if found.is_empty() {
            return Err(PaperProblem::NoType { place: folder.display().to_string() });
        }
        Ok(found)
    }

    /// Whether there is no type, so that words would be left out.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.found.is_empty()
    }

    /// The files, in their order.
    pub(crate) fn files(&self) -> &[Arc<Vec<u8>>] {
        &self.files
    }

    pub(crate) fn database(&self) -> Arc<Database> {
        Arc::clone(&self.found)
    }
}

/// Where a drawing asks for any type without serifs, it gets the first one there is, a plain one
/// sooner than a bold one.
fn name_generics(found: &mut Database) {
    let plain = |face: &&resvg::usvg::fontdb::FaceInfo| {
        face.weight.0 == 400 && face.style == resvg::usvg::fontdb::Style::Normal && !face.monospaced
    };
    let first = found.faces().find(plain).or_else(|| found.faces().next());
    let family = first.and_then(|face| face.families.first()).map(|(name, _)| name.clone());
    if let Some(family) = family {
        found.set_sans_serif_family(family.as_str());
        found.set_serif_family(family.as_str());
        found.set_monospace_family(family);
    }
}

fn collect(folder: &Path, files: &mut Vec<Vec<u8>>, depth: usize) -> Result<(), PaperProblem> {
    let unread = |source| PaperProblem::Unread { place: folder.display().to_string(), source };
    let mut entries: Vec<_> =
        std::fs::read_dir(folder).and_then(Iterator::collect::<Result<_, _>>).map_err(unread)?;
    entries.sort_by_key(std::fs::DirEntry::file_name);
    for entry in entries {
        let path = entry.path();
        let is_type = path
            .extension()
            .is_some_and(|end| ["ttf", "otf", "ttc"].iter().any(|known| end.eq_ignore_ascii_case(known)));
        if path.is_dir() && depth > 0 {
            collect(&path, files, depth - 1)?;
        } else if is_type {
            let file = std::fs::read(&path);
            files.push(
                file.map_err(|source| PaperProblem::Unread { place: path.display().to_string(), source })?,
            );
        }
    }
    Ok(())
}
