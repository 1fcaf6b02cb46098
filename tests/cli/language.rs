//! In which language the command line answers.

use strawblue::words::Words;

use crate::{Ran, run, run_in};

/// The language is the system's, unless one is stated; what a program reads is the same on every system.
#[test]
fn an_answer_is_in_the_language_of_the_system_or_the_one_that_is_stated() {
    for tag in Words::languages() {
        let words = Words::of(tag);
        let system = format!("{}.UTF-8", tag.replace('-', "_"));
        let said = words.get("cli-questions").replace('\u{a0}', " ");
        assert!(run_in(&system, &["ask"]).out.starts_with(&said), "{tag}");
        assert!(run(&["ask", "--language", tag]).out.starts_with(&said), "{tag}");
        assert!(run(&[&format!("--language={tag}"), "ask"]).out.starts_with(&said), "{tag}");
        // The one that is stated comes before the system's.
        assert_eq!(run_in(&system, &["ask", "--language", "en"]).out, run(&["ask"]).out);
        let json = |ran: Ran| ran.out;
        assert_eq!(json(run_in(&system, &["ask", "--json"])), json(run(&["ask", "--json"])), "{tag}");
        // Figures have the language's mark, keys and choices stay as they are.
        let asked = ["ask", "heat-input", "volts=12,5", "amps=150", "travel-speed=200", "process=gtaw"];
        let (own, english) = (run_in(&system, &asked), run(&asked));
        assert_eq!((own.status, english.status), (0, 0), "{}", own.err);
        let mark = words.decimal_mark().to_string();
        assert!(english.out.contains("0.") && own.out.contains(&format!("0{mark}")), "{}", own.out);
    }
    let unknown = run(&["ask", "--language", "tlh"]);
    assert_eq!(unknown.status, 2);
    assert!(unknown.err.contains("--language") && unknown.err.contains("en, "), "{}", unknown.err);
    assert_eq!(run(&["--language"]).status, 2);
    assert_eq!(run_in("tlh_XX.UTF-8", &["ask"]).out, run(&["ask"]).out);
}
