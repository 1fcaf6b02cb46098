//! The colours that pictures are drawn in: those of the theme.

use slint::{Color, ComponentHandle};

use crate::app::ui;

/// The colours of a look.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Inks {
    pub(super) panel: Color,
    pub(super) field: Color,
    pub(super) line: Color,
    pub(super) edge: Color,
    pub(super) ink: Color,
    pub(super) ink2: Color,
    pub(super) accent: Color,
    pub(super) stop: Color,
    pub(super) marked: Color,
}

impl Inks {
    /// As the window has them.
    pub(super) fn of(window: &ui::AppWindow) -> Self {
        let theme = window.global::<ui::Theme>();
        Self {
            panel: theme.get_panel(),
            field: theme.get_field(),
            line: theme.get_line(),
            edge: theme.get_edge(),
            ink: theme.get_ink(),
            ink2: theme.get_ink2(),
            accent: theme.get_accent(),
            stop: theme.get_stop(),
            marked: theme.get_marked(),
        }
    }
}
