//! The command line, run as a person runs it: what it answers, and its exit status
//! (0 answered, 1 no safe answer, 2 not understood).

mod ask;
mod backup;
mod card;
mod cycle;
mod desktop;
mod language;
mod log;
mod log_faults;
mod log_take;
mod repair;
mod weld;

use std::process::Command;

use proptest::prelude::*;
use serde_json::Value;

struct Ran {
    out: String,
    err: String,
    status: i32,
}

fn run(arguments: &[&str]) -> Ran {
    run_in("C", arguments)
}

/// The same on a system that speaks a language.
fn run_in(system: &str, arguments: &[&str]) -> Ran {
    let mut program = Command::new(env!("CARGO_BIN_EXE_strawblue"));
    program.args(arguments).env_remove("LANGUAGE").env("LC_ALL", system);
    let ran = program.output().expect("runs");
    Ran {
        out: String::from_utf8(ran.stdout).expect("text").replace('\u{a0}', " "),
        err: String::from_utf8(ran.stderr).expect("text").replace('\u{a0}', " "),
        status: ran.status.code().expect("ends by itself"),
    }
}

const SMALL: [&str; 5] = ["plan", "steel=4140", "thickness=25", "joint=butt", "process=tig"];

fn small(more: &[&str]) -> Ran {
    run(&[&SMALL, more].concat())
}

#[test]
fn a_plan_from_keys_a_file_or_both() {
    let ran = small(&["condition=Q&T 540"]);
    assert_eq!(ran.status, 0, "{}", ran.err);
    assert!(ran.out.contains("°C") && ran.err.is_empty());
    // What was not typed is said.
    assert!(ran.out.contains("hydrogen: ") && ran.out.contains("heat-input: "), "{}", ran.out);
    let demo = concat!(env!("CARGO_MANIFEST_DIR"), "/data/demo.ron");
    assert_eq!(run(&["plan", demo]).status, 0);
    // A key comes before the file's.
    let worse = |ran: Ran| {
        let read: Value = serde_json::from_str(&ran.out).expect("JSON");
        read["preheat_min_c"].as_f64().expect("a minimum")
    };
    let as_filed = worse(run(&["plan", demo, "--json"]));
    let high_hydrogen = worse(run(&["plan", demo, "--json", "hydrogen=EN A"]));
    assert!(high_hydrogen > as_filed);
}

/// A terminal may show a box for a sign that only joins words on a screen.
#[test]
fn what_is_printed_has_no_sign_without_a_shape() {
    let demo = concat!(env!("CARGO_MANIFEST_DIR"), "/data/demo.ron");
    for arguments in
        [&["plan", demo][..], &["plan", demo, "--json"], &["ask"], &["help"], &["plan", "steel=x"]]
    {
        let ran = run(arguments);
        let odd = |sign: &char| matches!(*sign, '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2060}'..='\u{206f}');
        assert_eq!([&ran.out, &ran.err].map(|text| text.chars().find(odd)), [None; 2], "{arguments:?}");
    }
    assert!(run(&["plan", demo]).out.contains("Ø90 mm"));
}

/// 200 mm in 80 s is 150 mm/min (plain arithmetic).
#[test]
fn a_timed_run_in_place_of_the_travel_speed() {
    let arc = ["condition=Q&T 540", "volts=25", "amps=150"];
    let timed = small(&[&arc[..], &["arc-time=1:20", "run-length=200 mm"]].concat());
    assert_eq!(timed.status, 0, "{}", timed.err);
    assert!(timed.out.contains("travel: ") && timed.out.contains("150 mm/min"), "{}", timed.out);
    let figures = |more: &[&str]| -> Value {
        let ran = small(&[&arc[..], more, &["--json"]].concat());
        let read: Value = serde_json::from_str(&ran.out).expect("JSON");
        read["preheat_min_exact_c"].clone()
    };
    assert_eq!(figures(&["arc-time=80", "run-length=200"]), figures(&["travel=150"]));
    let half = small(&[&arc[..], &["arc-time=80 s"]].concat());
    assert_eq!(half.status, 2);
    assert!(half.err.starts_with("run-length: "), "{}", half.err);
    let twice = small(&[&arc[..], &["arc-time=80 s", "run-length=200 mm", "travel=150"]].concat());
    assert_eq!(twice.status, 2);
    assert!(
        twice.err.contains("given twice") && twice.err.contains("Remove one of the two"),
        "{}",
        twice.err
    );
    // A single question reads a watch in the same way.
    let asked =
        run(&["ask", "heat-input", "volts=25", "amps=150", "arc-time=1:20", "run-length=200", "process=saw"]);
    assert!(asked.out.contains("1.5 kJ/mm"), "{}", asked.out);
}

#[test]
fn units_change_the_words_and_not_the_plan() {
    let read = |more: &[&str]| -> Value {
        serde_json::from_str(&small(&[more, &["--json"]].concat()).out).expect("JSON")
    };
    let metric = read(&["condition=Q&T 540"]);
    let mut inch =
        vec!["plan", "steel=4140", "thickness=25 mm", "joint=butt", "process=tig", "condition=Q&T 1004"];
    inch.extend(["--json", "--units=f-in"]);
    let inch: Value = serde_json::from_str(&run(&inch).out).expect("JSON");
    for key in ["verdict", "preheat_min_c", "preheat_min_exact_c", "interpass_max_c", "ceiling_c"] {
        assert_eq!(metric[key], inch[key], "{key}");
    }
    assert!(small(&["--units", "F + mm"]).out.contains("°F"));
}

#[test]
fn all_problems_at_once_and_status_two() {
    let ran = run(&[
        "plan",
        "steel=4141",
        "thickness=900 mm",
        "process=smaw",
        "hydrogen=H3",
        "shap=round",
        "leg=6",
    ]);
    assert_eq!(ran.status, 2);
    assert!(ran.out.is_empty());
    for start in ["shap: ", "steel: ", "thickness: ", "process: ", "hydrogen: ", "joint: "] {
        assert!(ran.err.lines().any(|line| line.starts_with(start)), "{start} in {}", ran.err);
    }
    assert!(ran.err.contains("SAE 4140"), "neighbours are listed: {}", ran.err);
    assert!(ran.err.contains("shape"), "a slip in a key too: {}", ran.err);
    let ran = run(&["plan", "thickness=900 mm", "--json"]);
    let read: Value = serde_json::from_str(&ran.out).expect("JSON");
    assert_eq!(ran.status, 2);
    assert!(read["problems"].as_array().expect("a list").iter().any(|found| found["key"] == "thickness"));
}

/// Leaded free-cutting steel must not be welded (trade fact: common practice, no source).
#[test]
fn a_steel_that_must_not_be_welded_is_status_one() {
    let ran = run(&["plan", "steel=12L14", "thickness=20", "joint=butt", "process=gmaw"]);
    assert_eq!(ran.status, 1, "{}", ran.err);
    let asked = run(&["plan", "steel=12L14", "thickness=20", "joint=butt", "process=gmaw", "--json"]);
    let read: Value = serde_json::from_str(&asked.out).expect("JSON");
    assert_eq!((&read["verdict"], &read["preheat_min_c"]), (&"do-not-weld".into(), &Value::Null));
    assert!(!ran.out.contains("Minimum preheat"), "no figure, not even none: {}", ran.out);
    let joint = small(&["condition=Q&T 540", "steel-b=12L14", "thickness-b=20", "--json"]);
    let read: Value = serde_json::from_str(&joint.out).expect("JSON");
    assert_eq!((joint.status, &read["family"]), (1, &"do-not-weld".into()));
}

/// One figure for the post-heat, in text and JSON; what else is known stands behind it.
#[test]
fn post_heat_is_one_figure() {
    let ran = small(&["condition=Q&T 540"]);
    let posts: Vec<&str> = ran.out.lines().filter(|line| line.contains(". Post-heat straight")).collect();
    let [line] = posts[..] else { panic!("{posts:?}") };
    assert_eq!(line.replace('\u{a0}', " ").matches(" h ").count(), 1, "{line}");
    let read: Value = serde_json::from_str(&small(&["condition=Q&T 540", "--json"]).out).expect("JSON");
    let names: Vec<&str> =
        read["post_heat"].as_array().expect("a list").iter().filter_map(|row| row["name"].as_str()).collect();
    assert_eq!(names[..2], ["post-heat-time", "post-heat-temperature"]);
}

/// What is typed once for all processes is told once; what is typed for one names it.
#[test]
fn a_problem_names_its_process() {
    let ran = small(&["process-2=smaw basic", "hydrogen=H3", "heat-input=1 + 99"]);
    assert_eq!(ran.status, 2, "{}", ran.out);
    let starts: Vec<&str> = ran.err.lines().filter_map(|line| line.split(':').next()).collect();
    assert_eq!(starts, ["hydrogen", "heat-input-2"], "{}", ran.err);
    // The key that a problem is told by can be written too.
    let ran = small(&["process-2=smaw basic", "hydrogen-2=H4R", "condition=Q&T 540", "--json"]);
    assert_eq!(ran.status, 0, "{}", ran.out);
    let assumed = json_of(&ran)["assumed"].to_string();
    assert!(assumed.contains("heat-input-2") && !assumed.contains("hydrogen-2"), "{assumed}");
}

/// Two figures for one process: said so that one of either reads right.
#[test]
fn a_count_of_one_reads_right() {
    let ran = small(&["hydrogen=3 ml + 5 ml"]);
    assert_eq!(ran.status, 2, "{}", ran.out);
    assert!(ran.err.contains("Figures: 2. Processes: 1."), "{}", ran.err);
}

#[test]
fn a_certificate_by_its_elements() {
    let ran = run(&["plan", "C=.45", "Mn=.75", "thickness=25", "joint=repair", "process=gmaw", "Si-b=.3"]);
    assert_eq!(ran.status, 2, "a second certificate with silicon only: {}", ran.out);
    assert!(ran.err.starts_with("certificate-b: "), "{}", ran.err);
    let ran = run(&["plan", "C=.45", "Mn=.75", "thickness=25", "joint=repair", "process=gmaw"]);
    assert_eq!(ran.status, 0, "{}", ran.err);
    assert!(ran.out.contains("certificate: "), "what it leaves out is said: {}", ran.out);
}

#[test]
fn files_that_are_no_jobs() {
    let folder = tempfile::tempdir().expect("a folder");
    let write = |name: &str, bytes: &[u8]| {
        let file = folder.path().join(name);
        std::fs::write(&file, bytes).expect("writes");
        file.to_str().expect("text").to_owned()
    };
    let strange = write("strange.ron", b"(steel: \"4140\",\n thickess: 3)");
    let broken = write("broken.ron", b"(steel: \"4140\"");
    let binary = write("binary.ron", &[0xff, 0xfe, 0, 1]);
    let long = write("long.ron", &vec![b' '; 2 << 20]);
    let folder_name = folder.path().to_str().expect("text").to_owned();
    for (file, says) in [
        (strange.as_str(), "thickess"),
        (broken.as_str(), "Line 1"),
        (binary.as_str(), "not a text file"),
        (long.as_str(), "too long"),
        ("/nowhere/at/all.ron", "cannot be read"),
    ] {
        let ran = run(&["plan", file]);
        assert_eq!(ran.status, 2, "{file}");
        assert!(ran.err.contains(says), "{file}: {}", ran.err);
    }
    assert_eq!(run(&["plan", &folder_name]).status, 2);
    assert_eq!(run(&["plan", &strange, &broken]).status, 2);
}

fn json_of(ran: &Ran) -> Value {
    serde_json::from_str(&ran.out).unwrap_or_else(|error| panic!("{error}: {} {}", ran.out, ran.err))
}

/// Each key of each object in a JSON value.
fn keys_of(value: &Value, found: &mut Vec<String>) {
    match value {
        Value::Object(object) => {
            for (key, value) in object {
                found.push(key.clone());
                keys_of(value, found);
            }
        }
        Value::Array(all) => all.iter().for_each(|value| keys_of(value, found)),
        _ => {}
    }
}

/// Every key that is written as JSON is told in the help, and the keys of a plan are all told.
#[test]
fn the_keys_of_an_answer_are_told() {
    let help = run(&["help", "json"]);
    assert_eq!(help.status, 0);
    let told =
        |key: &str| help.out.split(|c: char| !(c.is_alphanumeric() || c == '_')).any(|word| word == key);
    let demo = concat!(env!("CARGO_MANIFEST_DIR"), "/data/demo.ron");
    let plan = json_of(&run(&["plan", demo, "--json"]));
    let iron = json_of(&run(&[
        "plan",
        "steel=EN-GJL-200",
        "thickness=20",
        "joint=repair",
        "process=smaw nickel",
        "--json",
    ]));
    let asked = ["ask", "method-b", "cet=.3", "thickness=30", "hydrogen=5", "heat-input=1", "--json"];
    let mut keys = Vec::new();
    for value in [&plan, &iron, &json_of(&run(&asked)), &json_of(&run(&["plan", "steel=4141", "--json"]))] {
        keys_of(value, &mut keys);
    }
    let silent: Vec<&String> = keys.iter().filter(|key| !told(key)).collect();
    assert!(silent.is_empty(), "{silent:?}");
    for line in
        help.out.lines().skip_while(|line| *line != "A plan:").skip(1).take_while(|line| !line.is_empty())
    {
        let key = line.split_whitespace().next().expect("a key");
        assert!(keys.iter().any(|known| known == key), "no plan has {key}");
    }
}

/// Who asks for JSON gets it for a slip in the command line too.
#[test]
fn a_slip_in_the_command_line_is_json_too() {
    for arguments in [
        vec!["plan", "steel=4140", "stray", "--json"],
        vec!["--json", "weld"],
        vec!["plan", "--json"],
        vec!["help", "weld", "--json"],
        vec!["plan", "--json", "--colour"],
        vec!["ask", "method-b", "thickness", "--json"],
    ] {
        let ran = run(&arguments);
        assert!(ran.status == 2 && ran.err.is_empty(), "{arguments:?}: {}", ran.err);
        assert_eq!(json_of(&ran)["problems"][0]["key"], "arguments", "{arguments:?}");
    }
}

#[test]
fn the_keys_of_a_job_are_told_with_what_they_take() {
    let help = run(&["help", "plan"]).out;
    for example in
        ["38.5 mm", "D1.1 H2", "t-fillet-both-sides", "smaw cellulosic", "quenched and tempered 540 °C"]
    {
        assert!(help.contains(example), "{example}");
    }
}

#[test]
fn arguments_that_are_not_understood() {
    for (arguments, says) in [
        (vec!["weld"], "weld"),
        (vec!["--colour"], "--colour"),
        (vec!["plan"], "needs a job"),
        (vec!["plan", "steel"], "steel"),
        (vec!["plan", "=3"], "=3"),
        (vec!["plan", "steel=4140", "steel=4130"], "twice"),
        (vec!["--units"], "--units"),
        (vec!["plan", "steel=4140", "--units", "furlong"], "furlong"),
        (vec!["help", "weld"], "weld"),
    ] {
        let ran = run(&arguments);
        assert_eq!(ran.status, 2, "{arguments:?}");
        assert!(ran.err.contains(says), "{arguments:?}: {}", ran.err);
    }
}

#[cfg(unix)]
#[test]
fn an_argument_that_is_no_text() {
    use std::ffi::OsStr;
    use std::os::unix::ffi::OsStrExt;
    let ran = Command::new(env!("CARGO_BIN_EXE_strawblue"))
        .arg(OsStr::from_bytes(b"plan\xff"))
        .output()
        .expect("runs");
    assert_eq!(ran.status.code(), Some(2));
}

#[test]
fn help_and_version() {
    let help = run(&["help"]);
    assert_eq!(help.status, 0);
    assert!(help.out.contains("strawblue plan") && help.out.contains("  --units"), "{}", help.out);
    assert_eq!(run(&["--help"]).out, help.out);
    let plan = run(&["help", "plan"]);
    assert_eq!(run(&["plan", "--help"]).out, plan.out);
    for field in strawblue::job::Field::ALL {
        assert!(plan.out.contains(field.id()), "{}", field.id());
    }
    // What a plan takes for its heat cycle is told too, with where the rest of it comes from.
    for input in strawblue::questions::HEAT_CYCLE.inputs {
        let key = format!("  heat-cycle.{} ", input.key);
        let line = plan.out.lines().find(|line| line.starts_with(&key));
        let line = line.unwrap_or_else(|| panic!("{key}"));
        assert_eq!(line.ends_with("from the plan"), input.of_plan.is_some(), "{line}");
    }
    assert_eq!(run(&["--version"]).out.trim(), concat!("strawblue ", env!("CARGO_PKG_VERSION")));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, failure_persistence: None, ..ProptestConfig::default() })]

    /// Any words: an answer or a line on what was not understood, never a panic.
    #[test]
    fn any_words_are_answered(
        command in "(plan|ask|help|ask method-b|ask heat-input|--json|.{0,5})",
        words in proptest::collection::vec("((steel|thickness|C|cet|hydrogen|process|joint)=.{0,12}|.{0,12})", 0..5),
    ) {
        let arguments = std::iter::once("strawblue".to_owned())
            .chain(command.split(' ').map(str::to_owned))
            .chain(words)
            .map(Into::into);
        let said = strawblue::cli::answer(arguments);
        prop_assert!(said.status <= 2);
        prop_assert!(said.status == 0 || !(said.err.is_empty() && said.out.is_empty()));
    }
}

/// The answer that the readme prints is the one that is given.
#[test]
fn the_readme_prints_what_is_answered() {
    let readme = include_str!("../../README.md");
    let (_, after) =
        readme.split_once("$ strawblue plan data/demo.ron\n").expect("the readme shows the demo");
    let (shown, _) = after.split_once("…\n").expect("it breaks off");
    let ran = run(&["plan", "data/demo.ron"]);
    assert!(shown.lines().count() > 3, "{shown}");
    assert!(ran.out.replace('\u{a0}', " ").starts_with(shown), "{shown}\nbeside\n{}", ran.out);
}
