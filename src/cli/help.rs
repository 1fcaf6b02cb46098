//! `help`: what can be written.

use std::fmt::Write;

use super::arguments::{Request, languages};
use super::{Said, ask};
use crate::job::Field;
use crate::questions::HEAT_CYCLE;
use crate::words::Words;

/// Help on the program or on one command.
pub(super) fn help(about: Option<&str>, request: &Request, words: &Words) -> Said {
    match about {
        None | Some("help" | "backup" | "restore") => {
            Said::answered(words.with("cli-help", &[("languages", &languages(words))]) + "\n")
        }
        Some("card") => Said::answered(words.get("cli-help-card") + "\n"),
        Some("plan") => Said::answered(plan(request, words)),
        Some("log") => Said::answered(words.get("cli-help-log") + "\n"),
        Some("json") => Said::answered(super::json_keys::help(words)),
        Some("ask") => ask::ask(None, &[], request, words),
        Some(other) => Said::not_understood(
            words.with("cli-unknown-command", &[("given", &crate::units::shortened(other))]),
            request.json,
        ),
    }
}

fn plan(request: &Request, words: &Words) -> String {
    let mut made = words.get("cli-help-plan") + "\n\n";
    for field in Field::ALL {
        let _ = writeln!(made, "  {:<18} {}", field.id(), words.get(&field.key()));
        // A name takes any words.
        if *field != Field::Name {
            let _ = writeln!(made, "  {:<18}   {}", "", words.get(field.accepts().key()));
        }
        // What stands for the whole group follows its last field.
        match field {
            Field::Buttered => {
                let _ = writeln!(made, "  {:<18} {}", "steel-b, …", words.get("cli-takes-second"));
            }
            Field::Passes => {
                let _ = writeln!(made, "  {:<18} {}", "process, …", words.get("cli-takes-each"));
            }
            _ => {}
        }
    }
    let _ = writeln!(made, "  {:<18} {}", "C, Mn, …", words.get("cli-takes-elements"));
    let _ = writeln!(made, "  {:<18} {}", "C-b, Mn-b, …", words.get("cli-takes-elements-b"));
    let _ = writeln!(made, "\n{}", words.get("cli-takes-heat-cycle"));
    for input in HEAT_CYCLE.inputs {
        let key = format!("{}.{}", HEAT_CYCLE.name, input.key);
        let _ = writeln!(made, "  {key:<30} {}", ask::takes_beside_plan(input, request.units, words));
    }
    made
}
