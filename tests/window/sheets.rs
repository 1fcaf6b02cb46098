//! Every place on every screen: a phone, a tablet, a desktop. No text leaves the window in the language whose
//! words are longest.
//!
//! `STRAWBLUE_PAGES=FOLDER` writes each place there, of each size in each look, to be looked at.

use std::path::PathBuf;

use crate::screen::compare::{drawn, write};
use crate::screen::hand::texts;
use crate::screen::{live, mock_elapsed_time};
use slint::{ComponentHandle, Model};
use strawblue::app::ui;
use strawblue::job::{Session, demo_job};
use strawblue::words::Words;

const SIZES: [(u32, u32); 3] = [(360, 740), (800, 1280), (1280, 800)];
/// The language whose words are longest.
const LONGEST: &str = "de";
const LOOKS: [(ui::Look, &str); 2] = [(ui::Look::Dark, "dark"), (ui::Look::Light, "light")];

#[test]
fn every_place_fits_every_screen() {
    let folder = std::env::var_os("STRAWBLUE_PAGES").map(PathBuf::from);
    let mut languages = vec![LONGEST];
    if folder.is_some() {
        languages.push(Words::ENGLISH);
    }
    let mut faults = Vec::new();
    for (language, (width, height)) in languages.iter().flat_map(|tag| SIZES.map(|size| (*tag, size))) {
        let session = Session { language: language.to_owned(), job: demo_job(), ..Session::default() };
        let (window, _state) = live((width, height), session);
        let shell = window.global::<ui::Shell>();
        let places: Vec<_> = shell.get_places().iter().map(|place| place.id).collect();
        for place in places {
            shell.invoke_place_chosen(place.clone());
            mock_elapsed_time(60);
            for (text, at, size) in texts(&window) {
                if at.x < -0.5 || at.x + size.width > width as f32 + 0.5 {
                    faults.push(format!("{language} {place} {width}×{height}: “{text}”"));
                }
            }
            let Some(folder) = &folder else { continue };
            std::fs::create_dir_all(folder).expect("the folder can be made");
            for (look, name) in LOOKS {
                window.global::<ui::Theme>().set_look(look);
                mock_elapsed_time(60);
                write(&drawn(&window), &folder.join(format!("{place}-{width}-{name}-{language}.png")));
            }
        }
    }
    assert!(faults.is_empty(), "{} leave the window:\n{}", faults.len(), faults.join("\n"));
}
