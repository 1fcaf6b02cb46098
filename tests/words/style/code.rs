//! Texts that the program puts together by hand.

use crate::house::{before_tests, code, files};

/// Where texts are made for the reader no letter's case is changed and no list is joined by hand: a
/// language has its own way for both. What is looked for is turned to small letters, and these
/// files look.
const LOOKS: &[&str] = &[
    "src/app/desktop.rs",
    "src/app/plan/form.rs",
    "src/app/plan/form_process.rs",
    "src/app/safety/mod.rs",
    "src/app/steels/rows.rs",
    "src/cli/ask.rs",
    "src/job/",
    "src/report/outcome.rs",
    "src/words/search.rs",
];

#[test]
fn words_are_put_together_by_their_language() {
    let mut found = Vec::new();
    for (name, text) in files("src", "rs") {
        let spoken = ["src/app/", "src/cli/", "src/job/", "src/report/", "src/words/"];
        if !spoken.iter().any(|place| name.starts_with(place)) {
            continue;
        }
        for (at, line) in code(before_tests(&text)) {
            let cased = ["to_uppercase", "to_lowercase"].iter().any(|case| line.contains(case));
            let joined = [", ", "; ", " · ", " + ", " / "]
                .iter()
                .any(|sign| line.contains(&format!("join(\"{sign}\")")));
            // Sentences are joined by their language; a search and a typed line are read word by word.
            let spaced = name.starts_with("src/report/") && line.contains("join(\" \")");
            let joined = joined || spaced && name != "src/report/caution_search.rs";
            // What is typed and kept is joined as it is read again.
            let kept =
                ["src/job/flat.rs", "src/job/write_units.rs", "src/job/read_answers.rs", "src/cli/plan.rs"];
            if (cased && !LOOKS.iter().any(|look| name.starts_with(look)))
                || (joined && !kept.contains(&name.as_str()))
            {
                found.push(format!("{name}:{at}: {line}"));
            }
        }
    }
    assert!(found.is_empty(), "texts are put together by hand:\n{}", found.join("\n"));
}
