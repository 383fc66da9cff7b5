//! The papers as a maker prints them, by the program itself: the demo's booklet and the templates of 300 pieces; pages,
//! bytes, seconds (median of five), the most memory, and how fine the booklet's pictures are.
//!
//! Run with `cargo xtask bench papers`, which builds the program first. Each round is a process of its own, opening the
//! workroom anew. Memory and load are told where the system lists them under `/proc`; how fine pictures are, where
//! poppler's pdfimages is installed.

use serde_json::Value;
use std::error::Error;
use std::fmt::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

type Fallible<T> = Result<T, Box<dyn Error>>;

const ROUNDS: usize = 5;
/// What the pictures on paper should have at least.
const PIXELS_PER_IN: u32 = 200;

fn main() -> Fallible<()> {
    let bench = Bench::new()?;
    bench.run("demo", &["demo"])?;
    let booklet = bench.path("booklet.pdf");
    let asked = ["--head", "finished", "booklet", "--out", &booklet];
    let made = bench.measured("demo", &asked)?;
    println!("booklet of the demo: {} pages, {}", made.told["papers"][0]["pages"], made.figures(&booklet)?);
    println!(
        "  {}",
        pictures(&booklet).unwrap_or_else(|| "pictures not looked at: pdfimages is missing".to_owned())
    );
    bench.grow_300()?;
    let folder = bench.path("templates");
    let made = bench.measured("wide", &["papers", "--only", "templates", "--anyway", "--out", &folder])?;
    let paper = &made.told["papers"][0];
    let file = Path::new(&folder).join("templates.pdf");
    println!(
        "templates of {} pieces: {} pages, {}",
        paper["facts"]["pieces"],
        paper["pages"],
        made.figures(&file.to_string_lossy())?
    );
    Ok(())
}

/// The program, and a folder that goes with it.
struct Bench {
    program: PathBuf,
    folder: tempfile::TempDir,
}

/// What came of several rounds.
struct Measured {
    told: Value,
    median: Duration,
    most_kib: Option<u64>,
}

impl Bench {
    fn new() -> Fallible<Self> {
        let own = std::env::current_exe()?;
        let target =
            own.parent().and_then(Path::parent).ok_or("an example lies in a folder of the target")?;
        let program = target.join(format!("ragbag{}", std::env::consts::EXE_SUFFIX));
        if !program.is_file() {
            return Err(format!("{} is missing: build the program first", program.display()).into());
        }
        Ok(Self { program, folder: tempfile::tempdir()? })
    }

    fn path(&self, name: &str) -> String {
        self.folder.path().join(name).to_string_lossy().into_owned()
    }

    fn command(&self, room: &str, args: &[&str]) -> Command {
        let mut command = Command::new(&self.program);
        command.args(["--json", "--workroom", &self.path(room)]).args(args).stderr(Stdio::null());
        command
    }

    fn run(&self, room: &str, args: &[&str]) -> Fallible<Value> {
        let out = self.command(room, args).output()?;
        if !out.status.success() {
            return Err(format!("{args:?}: {}", String::from_utf8_lossy(&out.stdout)).into());
        }
        Ok(serde_json::from_slice(&out.stdout)?)
    }

    fn measured(&self, room: &str, args: &[&str]) -> Fallible<Measured> {
        let mut times = Vec::new();
        for _ in 0..ROUNDS {
            let begun = Instant::now();
            self.run(room, args)?;
            times.push(begun.elapsed());
        }
        times.sort();
        // Once more for the memory, since looking takes time.
        let mut child = self.command(room, args).stdout(Stdio::piped()).spawn()?;
        let mut most_kib = None;
        while child.try_wait()?.is_none() {
            most_kib = most_kib.max(high_water_kib(child.id()));
            std::thread::sleep(Duration::from_millis(1));
        }
        let told = serde_json::from_slice(&child.wait_with_output()?.stdout)?;
        Ok(Measured { told, median: times[ROUNDS / 2], most_kib })
    }

    /// A quilt of 300 pieces from 900 scraps.
    fn grow_300(&self) -> Fallible<()> {
        let colours = ["rust", "coral", "sand", "grey", "slate", "green"];
        let mut list = "name,width,height\n".to_owned();
        for i in 0..900 {
            writeln!(list, "{} {i},{},{}", colours[i * 7 % 6], 3 + i % 5, 4 + i % 7)?;
        }
        let file = self.path("scraps.csv");
        std::fs::write(&file, list)?;
        self.run("wide", &["add", "list", &file])?;
        self.run("wide", &["quilt", "Wide"])?;
        self.run("wide", &["wish", "--across", "40", "--drift", "rust, sand, slate, green"])?;
        self.run("wide", &["grow", "--more", "300"])?;
        Ok(())
    }
}

impl Measured {
    fn figures(&self, file: &str) -> Fallible<String> {
        let bytes = std::fs::metadata(file)?.len() as f64 / 1e6;
        let memory = self
            .most_kib
            .map_or_else(|| "not told".to_owned(), |kib| format!("{:.0} MiB", kib as f64 / 1024.0));
        let load = std::fs::read_to_string("/proc/loadavg").unwrap_or_default();
        let load = load.split(' ').next().unwrap_or_default().to_owned();
        let seconds = self.median.as_secs_f64();
        Ok(format!("{bytes:.2} MB, {seconds:.2} s (load {load}), most memory {memory}"))
    }
}

/// The most memory a running process has had so far.
fn high_water_kib(process: u32) -> Option<u64> {
    let status = std::fs::read_to_string(format!("/proc/{process}/status")).ok()?;
    let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:"))?;
    line.split_whitespace().next()?.parse().ok()
}

/// How fine the pictures of a file lie on its pages, as pdfimages says.
fn pictures(file: &str) -> Option<String> {
    let out = Command::new("pdfimages").args(["-list", file]).output().ok()?;
    let list = String::from_utf8(out.stdout).ok()?;
    let fine = list.lines().skip(2).filter_map(|line| {
        let words: Vec<&str> = line.split_whitespace().collect();
        let across: u32 = words.get(12)?.parse().ok()?;
        Some(across.min(words.get(13)?.parse().ok()?))
    });
    let mut fine: Vec<u32> = fine.collect();
    fine.sort_unstable();
    let coarse = fine.iter().filter(|pixels| **pixels < PIXELS_PER_IN).count();
    Some(format!(
        "{} pictures of {} to {} pixels an inch; {coarse} below {PIXELS_PER_IN}",
        fine.len(),
        fine.first()?,
        fine.last()?
    ))
}
