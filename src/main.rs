//! The binary: everything is in the library.

use std::process::ExitCode;

fn main() -> ExitCode {
    strawblue::run(std::env::args_os())
}
