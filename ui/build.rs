//! Compiles the window's `.slint` files.

use std::env;

fn main() {
    println!("cargo::rerun-if-changed=build.rs");
    // Element ids, by which tests find controls, survive only with debug information.
    let release = env::var("PROFILE").is_ok_and(|profile| profile == "release");
    let config = slint_build::CompilerConfiguration::new().with_debug_info(!release);
    slint_build::compile_with_config("app.slint", config).expect("every .slint file compiles");
}
