//! The store: one SQLite file in the workroom's folder, and pictures beside it.
//!
//! Write-ahead log, `synchronous=FULL`: what was acknowledged survives a kill. Every write is one
//! immediate transaction, so two programs on one workroom take turns. One table's migration, row,
//! reads and writes live in one file; they take any connection, inside a transaction or not.

pub(crate) mod deeds;
pub(crate) mod durable;
pub(crate) mod entries;
pub(crate) mod facts;
pub(crate) mod heads;
pub(crate) mod meta;
mod migrate;
pub(crate) mod pictures;
pub(crate) mod quilts;
pub(crate) mod refusals;
pub(crate) mod settings;
pub(crate) mod wishes;
mod write;

use crate::error::{PATIENCE_S, Result, WorkroomError};
use rusqlite::{Connection, OpenFlags};
use std::path::{Path, PathBuf};
use std::time::Duration;

pub use meta::WorkroomId;
pub use migrate::VERSION;

/// The database's name in the folder.
pub const DATABASE: &str = "workroom.sqlite";

/// The name of the folder of pictures.
pub const PICTURES: &str = "pictures";

/// An open store.
#[derive(Debug)]
pub(crate) struct Store {
    connection: Connection,
    folder: PathBuf,
    /// What has changed so far in a larger write, while one is open.
    whole: Option<Vec<deeds::Change>>,
}

impl Store {
    /// Makes a workroom in a folder, which may exist. Without an `id` a random one is drawn.
    pub(crate) fn create(folder: &Path, id: Option<WorkroomId>) -> Result<Self> {
        let pictures = folder.join(PICTURES);
        std::fs::create_dir_all(&pictures).map_err(|e| WorkroomError::file(&pictures, e))?;
        let mut store = Self::connect(folder, true)?;
        if migrate::version_of(&store.connection)?.is_some() {
            return Err(WorkroomError::AlreadyThere { folder: folder.to_owned() });
        }
        store.prepare()?;
        migrate::bring_up(&mut store.connection, folder, id)?;
        durable::sync_folder(folder)?;
        Ok(store)
    }

    /// Opens the workroom in a folder. One of a newer version is left as it is.
    pub(crate) fn open(folder: &Path) -> Result<Self> {
        let none = || WorkroomError::NoWorkroom { folder: folder.to_owned() };
        if !folder.join(DATABASE).is_file() {
            return Err(none());
        }
        let mut store = Self::connect(folder, false)?;
        let found = migrate::version_of(&store.connection)?.ok_or_else(none)?;
        if found > VERSION {
            let folder = folder.to_owned();
            return Err(WorkroomError::NewerVersion { folder, found, known: VERSION });
        }
        store.prepare()?;
        migrate::bring_up(&mut store.connection, folder, None)?;
        let pictures = folder.join(PICTURES);
        std::fs::create_dir_all(&pictures).map_err(|e| WorkroomError::file(&pictures, e))?;
        let transaction = store.begin()?;
        durable::sweep(&pictures)?;
        transaction.commit()?;
        Ok(store)
    }

    fn connect(folder: &Path, create: bool) -> Result<Self> {
        let mut flags = OpenFlags::SQLITE_OPEN_READ_WRITE | OpenFlags::SQLITE_OPEN_NO_MUTEX;
        if create {
            flags |= OpenFlags::SQLITE_OPEN_CREATE;
        }
        let connection = Connection::open_with_flags(folder.join(DATABASE), flags)?;
        connection.busy_timeout(Duration::from_secs(PATIENCE_S))?;
        Ok(Self { connection, folder: folder.to_owned(), whole: None })
    }

    fn prepare(&self) -> Result<()> {
        self.connection.query_row("PRAGMA journal_mode=WAL", [], |_| Ok(()))?;
        self.connection.pragma_update(None, "synchronous", "FULL")?;
        self.connection.pragma_update(None, "foreign_keys", true)?;
        self.connection.set_prepared_statement_cache_capacity(64);
        Ok(())
    }

    pub(crate) fn pictures(&self) -> PathBuf {
        self.folder.join(PICTURES)
    }

    pub(crate) fn folder(&self) -> &Path {
        &self.folder
    }

    #[cfg(test)]
    pub(crate) fn connection(&self) -> &Connection {
        &self.connection
    }
}

#[cfg(test)]
mod tests {
    use crate::stash::NewCloth;
    use crate::{Workroom, WorkroomError};
    use colour::Lab;
    use plane::Region;
    use quilt::cloth::Look;
    use std::time::Duration;

    fn room() -> (tempfile::TempDir, Workroom) {
        let folder = tempfile::TempDir::new().unwrap();
        let room = Workroom::create(&folder.path().join("room")).unwrap();
        (folder, room)
    }

    fn scrap() -> Vec<NewCloth> {
        let look = Look::plain(Lab { l: 50.0, a: 0.0, b: 0.0 });
        vec![NewCloth::scrap("scrap", Region::rectangle(3.0, 5.0), look)]
    }

    #[test]
    fn a_full_disk_is_said_and_nothing_is_lost() {
        let (_folder, mut room) = room();
        room.enter(scrap()).unwrap();
        let c = room.store.connection();
        let pages: i64 = c.query_row("PRAGMA page_count", [], |row| row.get(0)).unwrap();
        // The database may not grow any further: what SQLite then says is what it says of a full
        // disk.
        c.query_row(&format!("PRAGMA max_page_count = {pages}"), [], |_| Ok(())).unwrap();
        let many = std::iter::repeat_n(scrap(), 500).flatten().collect();
        let error = room.enter(many).unwrap_err();
        assert!(matches!(error, WorkroomError::DiskFull), "{error}");
        assert_eq!(room.stash().unwrap().present().len(), 1);
        room.store.connection().query_row("PRAGMA max_page_count = 100000", [], |_| Ok(())).unwrap();
        room.enter(scrap()).unwrap();
        assert_eq!(room.stash().unwrap().present().len(), 2);
    }

    #[test]
    fn a_database_that_cant_be_written_is_said() {
        let (_folder, mut room) = room();
        room.store.connection().pragma_update(None, "query_only", true).unwrap();
        let error = room.enter(scrap()).unwrap_err();
        assert!(matches!(error, WorkroomError::ReadOnly { .. }), "{error}");
        assert!(error.hint().is_some());
        assert!(room.stash().unwrap().present().is_empty());
    }

    #[test]
    fn another_program_that_does_not_finish_is_said() {
        let (folder, mut room) = room();
        let other = Workroom::open(&folder.path().join("room")).unwrap();
        other.store.connection().execute_batch("BEGIN IMMEDIATE").unwrap();
        room.store.connection().busy_timeout(Duration::from_millis(40)).unwrap();
        let error = room.enter(scrap()).unwrap_err();
        assert!(matches!(error, WorkroomError::Busy { .. }), "{error}");
        other.store.connection().execute_batch("COMMIT").unwrap();
        room.enter(scrap()).unwrap();
    }

    #[test]
    fn file_troubles_are_told_apart() {
        use std::io::{Error, ErrorKind};
        let of = |kind| WorkroomError::file("room", Error::from(kind));
        assert!(matches!(of(ErrorKind::PermissionDenied), WorkroomError::ReadOnly { .. }));
        assert!(matches!(of(ErrorKind::ReadOnlyFilesystem), WorkroomError::ReadOnly { .. }));
        assert!(matches!(of(ErrorKind::StorageFull), WorkroomError::DiskFull));
        assert!(matches!(of(ErrorKind::NotFound), WorkroomError::File { .. }));
    }

    #[test]
    fn a_workroom_of_before_times_were_kept_is_brought_up_and_has_none() {
        let (folder, mut room) = room();
        let head = room.new_quilt("old", &quilt::wish::Wish::default()).unwrap();
        let note = |mark, words: &str| {
            let step = quilt::log::Step::Note(words.to_owned());
            quilt::log::Entry { mark: quilt::log::Mark(mark), run: None, step }
        };
        let head = room.append(&head.at(), &[note(1, "before")]).unwrap();
        let old = "ALTER TABLE deeds DROP COLUMN at; UPDATE meta SET version = 2";
        room.store.connection().execute_batch(old).unwrap();
        drop(room);
        let mut room = Workroom::open(&folder.path().join("room")).unwrap();
        room.append(&head.at(), &[note(2, "after")]).unwrap();
        let log = room.log("old", crate::quilts::MAIN).unwrap();
        let known: Vec<bool> = room.times(&log).unwrap().iter().map(|step| step.planned.is_some()).collect();
        assert_eq!(known, [false, true]);
    }
}
