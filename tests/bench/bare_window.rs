//! An empty window: what the toolkit costs by itself. The bench compares Strawblue with it.

slint::slint! {
    export component Bare inherits Window {
        title: "bare";
        preferred-width: 1280px;
        preferred-height: 800px;
        background: #14181a;
        Text {
            text: "bare";
            color: #ffffff;
        }
    }
}

fn main() -> Result<(), slint::PlatformError> {
    Bare::new()?.run()
}
