//! From an empty page to filler and bead order, and the block of the plan's page that shows them.
//!
//! `STRAWBLUE_PAGES=FOLDER` writes the block there, to be looked at.

use std::path::Path;

use i_slint_backend_testing::AccessibleRole;
use slint::{ComponentHandle, Model};
use strawblue::app::{refresh_all, ui};
use strawblue::engine::job::{Joint, Process};
use strawblue::job::{Field, JobText, Session, Theme, demo_job};

use crate::screen::compare::{drawn, part, write};
use crate::screen::hand::{found, says, texts};
use crate::screen::live;
use crate::typed_job::job;

const PHONE: (u32, u32) = (360, 7600);
const DESKTOP: (u32, u32) = (1280, 5200);

fn rows(window: &ui::AppWindow) -> Vec<ui::ToDoRow> {
    window.global::<ui::PlanAdapter>().get_weld().iter().collect()
}

fn row(window: &ui::AppWindow, id: &str) -> ui::ToDoRow {
    rows(window).into_iter().find(|row| row.id == id).unwrap_or_else(|| panic!("no line {id}"))
}

fn place<T: PartialEq + std::fmt::Debug>(all: &[T], one: &T) -> i32 {
    i32::try_from(all.iter().position(|other| other == one).expect("it is offered")).expect("a few")
}

#[test]
fn from_an_empty_page_to_filler_and_bead_order_in_eight_inputs() {
    let (window, state) = live((360, 740), Session::default());
    let form = window.global::<ui::FormEvents>();
    let mut inputs = 0;
    let mut input = |put: &dyn Fn()| {
        put();
        refresh_all(&window, &state);
        inputs += 1;
    };
    assert!(rows(&window).is_empty());
    let steel = |field: Field, nth: usize, name: &'static str| {
        state.change(move |session| session.job.set(field.nth(nth), Some(name.to_owned())));
    };
    input(&|| steel(Field::Steel, 0, "S355J2"));
    input(&|| form.invoke_field_edited("thickness".into(), "30".into()));
    input(&|| form.invoke_choice_made("joint".into(), place(Joint::ALL, &Joint::BossThrough)));
    input(&|| steel(Field::Steel, 1, "34CrMo4"));
    input(&|| steel(Field::Diameter, 1, "90"));
    input(&|| form.invoke_choice_made("process".into(), place(Process::ALL, &Process::Gtaw)));
    input(&|| form.invoke_field_edited("leg".into(), "8".into()));
    assert!(inputs <= 8, "{inputs} inputs");
    assert_eq!(state.problems().len(), 0);
    assert!(row(&window, "filler-0").value.starts_with("ER70S"), "{}", row(&window, "filler-0").value);
    assert_eq!(row(&window, "order").value, "A1, B1, B2, A2, A3, B3");
    let picture = window.global::<ui::PlanAdapter>().get_weld_picture();
    let beads: Vec<String> = picture.beads.iter().map(|bead| bead.text.to_string()).collect();
    // The same three on each face.
    assert_eq!(beads, ["1", "2", "3", "1", "2", "3"]);
    assert_eq!(picture.faces.row_count(), 2);
    // The steps have the places.
    let steps: Vec<ui::WorkRow> = window.global::<ui::PlanAdapter>().get_steps().iter().collect();
    let notes = |phase: &str| steps.iter().find(|step| step.phase == phase).expect("a step").note.to_string();
    assert!(
        notes("tack").contains("at 0°\u{a0}and 180°") || notes("tack").contains("0° and 180°"),
        "{}",
        notes("tack")
    );
    assert!(notes("weld").contains("1, 3, 2, 4"), "{}", notes("weld"));
}

#[test]
fn a_refused_steel_has_no_weld() {
    let refused =
        job(&[("steel", "12L14"), ("thickness", "25"), ("joint", "lap"), ("process", "gtaw"), ("leg", "6")]);
    let (window, _state) = live((360, 740), Session { job: refused, ..Session::default() });
    assert!(rows(&window).is_empty());
    assert_eq!(window.global::<ui::PlanAdapter>().get_weld_picture().beads.row_count(), 0);
}

/// Jobs whose block is looked at: two faces, one side with many runs, a groove, a filler that is refused.
fn looked_at() -> Vec<(&'static str, JobText)> {
    let of = |pairs: &[(&str, &str)]| job(pairs);
    vec![
        ("demo", demo_job()),
        (
            "lap",
            of(&[
                ("steel", "42CrMo4"),
                ("condition", "hardened and tempered 600 °C"),
                ("thickness", "40 mm"),
                ("joint", "lap"),
                ("process", "gtaw"),
                ("leg", "14 mm"),
            ]),
        ),
        (
            "tee",
            of(&[
                ("steel", "S355J2"),
                ("thickness", "15 mm"),
                ("joint", "t-fillet-both-sides"),
                ("process", "smaw basic"),
                ("leg", "9 mm"),
                ("filler", "E7018"),
            ]),
        ),
        (
            "groove",
            of(&[
                ("steel", "4140"),
                ("thickness", "25 mm"),
                ("joint", "butt"),
                ("process", "smaw basic"),
                ("filler", "E7018"),
            ]),
        ),
        (
            "vee",
            of(&[
                ("steel", "S355J2"),
                ("thickness", "25 mm"),
                ("joint", "butt"),
                ("process", "gtaw + smaw basic"),
                ("groove", "v"),
                ("root-face", "1 mm"),
                ("load", "shear"),
                ("weld-length", "600 mm"),
            ]),
        ),
    ]
}

/// What a drawing says of a groove is chosen in place, and its runs follow at once; only what the joint has
/// is asked.
#[test]
fn a_groove_is_told_in_place() {
    let butt = job(&[("steel", "S355J2"), ("thickness", "20"), ("joint", "butt"), ("process", "smaw basic")]);
    let (window, state) = live((360, 4000), Session { job: butt, ..Session::default() });
    let form = window.global::<ui::FormEvents>();
    assert_eq!(row(&window, "runs").value, "Groove not given");
    form.invoke_row_toggled("laying".into());
    refresh_all(&window, &state);
    assert!(says(&window, "Load") && !says(&window, "Groove angle"));
    form.invoke_choice_made("groove".into(), 2);
    refresh_all(&window, &state);
    assert!(says(&window, "Groove angle"), "its angle is asked now");
    let usual: usize = row(&window, "runs").value.parse().expect("a count");
    form.invoke_field_edited("groove-angle".into(), "90".into());
    refresh_all(&window, &state);
    let wide: usize = row(&window, "runs").value.parse().expect("a count");
    assert!(wide > usual && usual > 5, "{usual} {wide}");
    form.invoke_field_edited("groove-angle".into(), "9o".into());
    refresh_all(&window, &state);
    assert!(!state.problems().is_empty(), "a slip stays in its field");
    form.invoke_field_edited("groove-angle".into(), "60°".into());
    form.invoke_field_edited("weld-length".into(), "600".into());
    form.invoke_choice_made("load".into(), 4);
    refresh_all(&window, &state);
    assert!(row(&window, "amount-0").value.starts_with("About"), "{:?}", row(&window, "amount-0"));
    assert!(
        row(&window, "filler-0").note.contains("Stress along the weld"),
        "{}",
        row(&window, "filler-0").note
    );
    form.invoke_choice_made("joint".into(), place(Joint::ALL, &Joint::Lap));
    form.invoke_field_edited("leg".into(), "8".into());
    refresh_all(&window, &state);
    assert!(says(&window, "Position of welding"));
}

#[test]
fn the_block_fits_its_place_in_both_looks() {
    let folder = std::env::var_os("STRAWBLUE_PAGES");
    for (name, job) in looked_at() {
        for (size, shape) in [(PHONE, "phone"), (DESKTOP, "desktop")] {
            for (look, theme) in [("dark", Theme::Dark), ("light", Theme::Light)] {
                let session = Session { job: job.clone(), theme, ..Session::default() };
                let (window, _state) = live(size, session);
                assert!(says(&window, "Filler, runs and current"), "{name}");
                let list = found(&window, AccessibleRole::List, "Filler, runs and current");
                let (top, height) = (list.absolute_position().y, list.size().height);
                for (text, at, text_size) in texts(&window) {
                    let inside = at.y >= top && at.y <= top + height;
                    #[allow(clippy::cast_precision_loss, reason = "a width")]
                    let wide = size.0 as f32;
                    assert!(!inside || at.x >= 0.0 && at.x + text_size.width <= wide, "{name}: {text}");
                }
                let Some(folder) = &folder else { continue };
                let picture = drawn(&window);
                let first = (top - 330.0).max(0.0);
                #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "pixels")]
                let rows = (0, first as u32, size.0, (height as u32 + 340).min(size.1 - first as u32));
                write(
                    &part(&picture, rows),
                    &Path::new(folder).join(format!("weld-{name}-{shape}-{look}.png")),
                );
            }
        }
    }
}
