//! Compiles the window's `.slint` files.

fn main() {
    #[cfg(feature = "window")]
    {
        // Element ids, by which tests find controls, survive only with debug information.
        let release = std::env::var("PROFILE").is_ok_and(|profile| profile == "release");
        let config = slint_build::CompilerConfiguration::new().with_debug_info(!release);
        slint_build::compile_with_config("ui/app.slint", config).expect("every .slint file compiles");
    }
}
