//! What the window costs beside an empty one, in the same run: time to the first frame, idle
//! memory, size of the program. Measures and prints; nothing here fails for being large.
//!
//! Needs Xvfb, which keeps its screen in a file: the first frame is there as soon as the file
//! holds a point that isn't black.

mod jobs;

use std::fs;
use std::io::{BufRead, BufReader};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

use strawblue::job::{Session, Store};

/// No more than this many times what an empty window costs.
const TARGET: f64 = 1.5;
const STARTS: usize = 10;
const IDLE: Duration = Duration::from_secs(3);

/// What one program costs.
#[derive(Debug)]
struct Cost {
    first_frame_ms: f64,
    idle_mb: f64,
    size_mb: f64,
}

/// A program that is ended when it is no longer needed.
struct Running(Child);

impl Drop for Running {
    fn drop(&mut self) {
        let _ = self.0.kill();
        let _ = self.0.wait();
    }
}

struct Screen {
    _server: Running,
    number: String,
    picture: PathBuf,
}

impl Screen {
    /// A screen of its own, or `None` where there is no Xvfb.
    fn start(folder: &Path) -> Option<Self> {
        let mut server = Command::new("Xvfb")
            .args(["-displayfd", "1", "-nolisten", "tcp", "-screen", "0", "1400x900x24", "-fbdir"])
            .arg(folder)
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .ok()?;
        let mut number = String::new();
        let said = server.stdout.take().expect("its output is piped");
        let server = Running(server);
        BufReader::new(said).read_line(&mut number).ok()?;
        Some(Self {
            _server: server,
            number: format!(":{}", number.trim()),
            picture: folder.join("Xvfb_screen0"),
        })
    }

    /// Is anything but black in the upper left of the screen?
    fn is_drawn(&self) -> bool {
        let Ok(file) = fs::read(&self.picture) else { return false };
        let word = |place: usize| {
            file.get(place * 4..place * 4 + 4)
                .map_or(0, |bytes| u32::from_be_bytes(bytes.try_into().expect("four bytes")) as usize)
        };
        // The header of an XWD file: its own length, the bytes of a line, the colours (of 12 bytes).
        let (header, line, colours) = (word(0), word(12), word(19));
        let first = header + colours * 12;
        (0..400).step_by(7).any(|y| {
            let from = first + y * line;
            file.get(from..from + 600 * 4).is_some_and(|points| points.iter().any(|&byte| byte != 0))
        })
    }
}

fn start(program: &Path, screen: &Screen, home: &Path) -> Running {
    let child = Command::new(program)
        .env("DISPLAY", &screen.number)
        .env("HOME", home)
        .env("XDG_DATA_HOME", home)
        .env("XDG_CONFIG_HOME", home)
        .env_remove("WAYLAND_DISPLAY")
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .spawn()
        .expect("the program starts");
    Running(child)
}

/// From the start to the first frame, once.
fn frame_ms(program: &Path, screen: &Screen, home: &Path) -> f64 {
    while screen.is_drawn() {
        std::thread::sleep(Duration::from_millis(5));
    }
    let begun = Instant::now();
    let _running = start(program, screen, home);
    while !screen.is_drawn() {
        assert!(begun.elapsed() < Duration::from_secs(60), "{} draws nothing", program.display());
        std::thread::sleep(Duration::from_micros(500));
    }
    begun.elapsed().as_secs_f64() * 1e3
}

fn cost(program: &Path, screen: &Screen, home: &Path) -> Cost {
    let mut frames_ms = Vec::new();
    let mut idle_mb = 0.0;
    for round in 0..STARTS {
        // The window of the round before has to be gone.
        while screen.is_drawn() {
            std::thread::sleep(Duration::from_millis(5));
        }
        let begun = Instant::now();
        let running = start(program, screen, home);
        while !screen.is_drawn() {
            assert!(begun.elapsed() < Duration::from_secs(60), "{} draws nothing", program.display());
            std::thread::sleep(Duration::from_micros(500));
        }
        frames_ms.push(begun.elapsed().as_secs_f64() * 1e3);
        if round + 1 == STARTS {
            std::thread::sleep(IDLE);
            idle_mb = resident_mb(running.0.id());
        }
    }
    frames_ms.sort_by(f64::total_cmp);
    let bytes = fs::metadata(program).expect("the program is a file").len();
    Cost { first_frame_ms: frames_ms[STARTS / 2], idle_mb, size_mb: bytes as f64 / 1e6 }
}

fn resident_mb(process: u32) -> f64 {
    let status = fs::read_to_string(format!("/proc/{process}/status")).expect("the window is open");
    let kib: f64 = status
        .lines()
        .find_map(|line| line.strip_prefix("VmRSS:"))
        .and_then(|rest| rest.trim().trim_end_matches("kB").trim().parse().ok())
        .expect("a process has a resident size");
    kib * 1024.0 / 1e6
}

/// The empty window, built like the program beside it.
fn bare() -> PathBuf {
    let built = Command::new(env!("CARGO"))
        .args(["build", "--release", "--locked", "--example", "bare_window"])
        .status()
        .expect("cargo runs");
    assert!(built.success(), "the empty window builds");
    Path::new(env!("CARGO_BIN_EXE_strawblue")).with_file_name("examples").join("bare_window")
}

fn line(what: &str, own: f64, bare: f64, unit: &str) {
    let ratio = own / bare;
    let verdict = if ratio <= TARGET { "kept" } else { "MISSED" };
    println!(
        "{what:<24} {own:>7.1} {unit:<3} empty window {bare:>7.1} {unit:<3} {ratio:>5.2} ×  target {TARGET} ×  {verdict}"
    );
}

fn main() {
    let folder = tempfile::tempdir().expect("a folder for the screen");
    let home = folder.path().join("home");
    fs::create_dir_all(&home).expect("a folder for what is kept");
    let bare = bare();
    let Some(screen) = Screen::start(folder.path()) else {
        println!("no Xvfb here: the window is not measured");
        return;
    };
    let empty = cost(&bare, &screen, &home);
    let own = cost(Path::new(env!("CARGO_BIN_EXE_strawblue")), &screen, &home);
    line("first frame", own.first_frame_ms, empty.first_frame_ms, "ms");
    line("idle memory", own.idle_mb, empty.idle_mb, "MB");
    line("size of the program", own.size_mb, empty.size_mb, "MB");
    log_of_years(&screen, folder.path(), own.first_frame_ms);
}

/// The list of a shop of many years: its first rows stand in the first frame.
fn log_of_years(screen: &Screen, folder: &Path, plain_ms: f64) {
    const ROWS_MS: f64 = 150.0;
    const MEMORY_MB: f64 = 200.0;
    let program = Path::new(env!("CARGO_BIN_EXE_strawblue"));
    let at_log = |home: &Path| {
        let store = Store::open(home.join("strawblue")).expect("the folder can be used");
        let session = Session { place: "log".to_owned(), ..Session::default() };
        session.save(&store).expect("it is saved");
        store
    };
    let none = folder.join("none");
    at_log(&none);
    let empty = cost(program, screen, &none);
    println!(
        "first frame of the Log without a job {:>19.1} ms, of the plan {plain_ms:.1} ms",
        empty.first_frame_ms
    );
    let years = folder.join("years");
    let store = at_log(&years);
    jobs::put_jobs(store.folder());
    let say = |what: &str, taken: f64, target: f64, unit: &str| {
        let verdict = if taken <= target { "kept" } else { "MISSED" };
        println!("{what:<56} {taken:>7.1} {unit:<3} target {target:>6.1} {unit}  {verdict}");
    };
    // Each start goes on where the one before left off: the first one knows nothing.
    let fresh = frame_ms(program, screen, &years) - empty.first_frame_ms;
    say("1,000 jobs, nothing known: first rows in the window", fresh, ROWS_MS, "ms");
    let running = start(program, screen, &years);
    let from = Instant::now();
    let index = store.folder().join("log-index.json");
    let mut most = 0.0_f64;
    while from.elapsed() < Duration::from_secs(120) {
        std::thread::sleep(Duration::from_millis(500));
        most = most.max(resident_mb(running.0.id()));
        let known = fs::read_to_string(&index).map_or(0, |text| text.matches("\"pieces\"").count());
        if known >= jobs::JOBS {
            break;
        }
    }
    println!("all of them are read by the window after {:>18.1} s", from.elapsed().as_secs_f64());
    drop(running);
    say("memory meanwhile", most, MEMORY_MB, "MB");
    let known = cost(program, screen, &years);
    say("1,000 jobs: first rows in the window", known.first_frame_ms - empty.first_frame_ms, ROWS_MS, "ms");
    say("memory", known.idle_mb, MEMORY_MB, "MB");
}
