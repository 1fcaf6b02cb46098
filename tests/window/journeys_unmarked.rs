//! A bar without a mark: from the file test to a plan by taps, with wrong turns on the way.
//!
//! `STRAWBLUE_PAGES=FOLDER` writes each screen there, to be looked at.

use std::path::Path;
use std::rc::Rc;

use i_slint_backend_testing::AccessibleRole::{Button, RadioButton, Tab};
use i_slint_backend_testing::ElementHandle;
use slint::platform::Key;
use slint::{ComponentHandle, Model};
use strawblue::app::{State, ui};
use strawblue::engine::job::Steel;
use strawblue::engine::unmarked::Alloy;
use strawblue::job::{Field, Session, Theme, demo_job};
use strawblue::reference::Element;

use crate::screen::compare::{DESKTOP, PHONE, drawn, write};
use crate::screen::hand::{fill, labelled, press, tap};
use crate::screen::{live, mock_elapsed_time, typed_at};

struct Bench {
    window: ui::AppWindow,
    state: Rc<State>,
    name: String,
    shots: std::cell::Cell<usize>,
}

impl Bench {
    fn new(size: (u32, u32), theme: Theme) -> Self {
        let session = Session { job: demo_job(), theme, ..Session::default() };
        let (window, state) = live(size, session);
        let (shape, look) =
            (if size.0 < 800 { "phone" } else { "desktop" }, format!("{theme:?}").to_lowercase());
        Self { window, state, name: format!("{shape}-{look}"), shots: std::cell::Cell::default() }
    }

    /// From the plan's first part, by its steel.
    fn from_picker(size: (u32, u32), theme: Theme) -> Self {
        let bench = Self::new(size, theme);
        bench.window.global::<ui::FormEvents>().invoke_pick_asked("steel".into());
        mock_elapsed_time(50);
        tap(&bench.window, Button, "Unmarked steel");
        assert_eq!(bench.page(), "unmarked");
        bench.look("file");
        bench
    }

    fn page(&self) -> String {
        self.window.global::<ui::Shell>().get_page().to_string()
    }

    fn look(&self, what: &str) {
        let Some(folder) = std::env::var_os("STRAWBLUE_PAGES") else { return };
        self.shots.set(self.shots.get() + 1);
        std::fs::create_dir_all(&folder).expect("the folder can be made");
        let name = format!("unmarked-{}-{:02}-{what}.png", self.name, self.shots.get());
        write(&drawn(&self.window), &Path::new(&folder).join(name));
    }

    fn head(&self) -> ui::TestHead {
        self.window.global::<ui::UnmarkedAdapter>().get_head()
    }

    fn at(&self) -> String {
        self.head().id.to_string()
    }

    fn figure(&self) -> String {
        self.window.global::<ui::UnmarkedAdapter>().get_band().figure.replace('\u{a0}', " ")
    }

    fn range(&self) -> String {
        self.window.global::<ui::UnmarkedAdapter>().get_band().range.replace('\u{a0}', " ")
    }

    fn lines(&self) -> Vec<String> {
        let lines = self.window.global::<ui::UnmarkedAdapter>().get_lines();
        lines.iter().map(|line| line.text.to_string()).collect()
    }

    /// Taps an answer, which leads on, and looks at what follows.
    fn answer(&self, said: &str) {
        // What lies below the edge is called, as a screen reader does.
        let in_view = |row: &ElementHandle| {
            let foot = if self.window.window().size().width < 800 { 136.0 } else { 72.0 };
            let high = self.window.window().size().height as f32 - foot;
            row.absolute_position().y + row.size().height / 2.0 < high
        };
        if labelled(&self.window, RadioButton, said).is_some_and(|row| in_view(&row)) {
            tap(&self.window, RadioButton, said);
        } else {
            let lines = self.window.global::<ui::UnmarkedAdapter>().get_lines();
            let line = lines.iter().find(|line| line.text == said);
            self.call(&line.unwrap_or_else(|| panic!("there is no answer “{said}”")).id);
        }
        mock_elapsed_time(20);
        self.look(&self.at());
    }

    fn press(&self, button: &str) {
        tap(&self.window, Button, button);
        mock_elapsed_time(20);
    }

    /// Calls a control that lies below the edge of the screen.
    fn call(&self, id: &str) {
        self.window.global::<ui::UnmarkedAdapter>().invoke_answer_asked(id.into());
        mock_elapsed_time(20);
    }
}

const SIZES: [(u32, u32); 2] = [PHONE, DESKTOP];
/// High enough for all answers of a test at once.
const HIGH: [(u32, u32); 2] = [(360, 1500), (1280, 1300)];

/// File, spark, magnet, coupon in air: five taps to a plan.
#[test]
fn an_unmarked_bar_goes_from_the_file_to_a_plan() {
    for (size, theme) in SIZES.into_iter().zip([Theme::Dark, Theme::Light]) {
        let bench = Bench::from_picker(size, theme);
        assert_eq!((bench.at().as_str(), bench.figure().as_str()), ("file", "Any metal"));
        bench.answer("Bites easily");
        assert_eq!(bench.at(), "spark");
        bench.answer("More forks of mixed length");
        assert_eq!((bench.at().as_str(), bench.figure().as_str()), ("magnet", "0.60 % carbon"));
        assert_eq!(bench.range(), "0.25–0.60 %");
        bench.answer("Strong pull");
        // Before its end it is asked whether the bar is alloyed: that spares most.
        assert_eq!(bench.at(), "alloy");
        bench.call("air-coupon.same");
        bench.look("alloy-answered");
        assert_eq!(
            bench.at(),
            "alloy",
            "several tests stand on this screen: none of them leads on by itself"
        );
        bench.press("Next: End");
        bench.look("end");
        assert_eq!((bench.at().as_str(), bench.figure().as_str()), ("end", "0.60 % carbon"));
        bench.press("Use in the plan");
        bench.look("plan");
        assert_eq!(bench.page(), "plan");
        assert_eq!(typed_at(&bench.state, Field::Steel).as_deref(), Some("Unmarked: 0.25–0.60 % C"));
        assert_eq!(typed_at(&bench.state, Field::Condition), None);
        let planned = bench.state.planned_now().expect("a plan");
        let Steel::Unmarked { composition, alloy, maybe_tool } = &planned.read.job.members[0].steel else {
            panic!("the plan knows that it is unmarked")
        };
        assert!((composition.get(Element::C) - 0.6).abs() < 1e-9 && *alloy == Alloy::Lean && !maybe_tool);
        assert!(planned.plan.minimum.as_ref().expect("a minimum").at_least);
        let answer = bench.window.global::<ui::PlanAdapter>().get_answer();
        assert!(
            answer.lines.iter().any(|line| line.contains("Unmarked steel") && line.contains("trial piece"))
        );
        assert!(!answer.note.contains("certificate"), "a bar without a mark has none: {}", answer.note);
        // The test is over: the next bar begins anew.
        assert!(
            bench
                .state
                .session(|session| session.choices.keys().all(|key| !key.starts_with("unmarked-steel")))
        );
        // The same steel can be taken for the other part.
        assert!(
            bench
                .state
                .session(|session| session.own_steels.iter().any(|own| own.name.starts_with("Unmarked")))
        );
    }
}

/// Back, another answer, a test that nobody can tell: never a leaner steel than the last answers leave.
#[test]
fn wrong_turns_on_the_way_are_taken_back() {
    for size in SIZES {
        let bench = Bench::from_picker(size, Theme::Light);
        bench.answer("Skates, the file gets dull");
        bench.answer("Long, few simple forks");
        bench.answer("Strong pull");
        // A file that skates on a soft spark: a case, and it is asked.
        assert_eq!(bench.at(), "ground");
        bench.press("One test back");
        bench.press("One test back");
        assert_eq!(bench.at(), "spark");
        bench.answer("More forks of mixed length");
        assert_eq!((bench.at().as_str(), bench.range().as_str()), ("magnet", "0.25–0.60 %"));
        bench.press("Next: Below the surface");
        bench.press("Cannot tell");
        assert_eq!(bench.at(), "alloy");
        bench.press("Cannot tell");
        assert_eq!((bench.at().as_str(), bench.figure().as_str()), ("end", "0.60 % carbon"));
        bench.look("end-rich");
        // A tap on the path leads to any test; what is chosen there twice is taken back.
        tap(&bench.window, Tab, "Spark");
        bench.call("spark.more-forks");
        assert_eq!(bench.range(), "0.00–1.40 %");
        bench.press("Cannot tell");
        // Without a spark it may be cast iron, which a chisel tells.
        bench.press("Next: Chip");
        assert_eq!((bench.at().as_str(), bench.figure().as_str()), ("chip", "No figure yet"));
        bench.look("chip");
        tap(&bench.window, Tab, "Spark");
        bench.answer("Long, few simple forks");
        tap(&bench.window, Tab, "End");
        assert_eq!(bench.figure(), "0.30 % carbon");
        bench.look("end-case");
        bench.press("Use in the plan");
        assert_eq!(typed_at(&bench.state, Field::Condition).as_deref(), Some("case-hardened"));
        let planned = bench.state.planned_now().expect("a plan");
        assert!(!planned.plan.usable_window, "the case must come off first");
    }
}

/// No figure for metals that the preheat of a steel harms, for contradictions, for what is no steel.
#[test]
fn ends_without_a_figure_lead_on() {
    for size in HIGH {
        let bench = Bench::from_picker(size, Theme::Dark);
        bench.answer("Bites easily");
        bench.answer("Very short, fine bursts, red at the wheel");
        bench.answer("Strong pull");
        assert_eq!((bench.at().as_str(), bench.figure().as_str()), ("chip", "No figure yet"));
        bench.answer("Grey crumbs");
        assert_eq!((bench.at().as_str(), bench.figure().as_str()), ("end", "Only cast iron"));
        assert!(labelled(&bench.window, Button, "Use in the plan").is_none());
        bench.press("Choose it from the list");
        assert_eq!(bench.page(), "steels");
        let entries = bench.window.global::<ui::SteelsAdapter>().get_entries();
        assert!(entries.iter().any(|entry| entry.title == "Cast iron" && entry.open));
        // Back in the test: contradicting answers are named, and lead to where they were given.
        tap(&bench.window, Button, "Unmarked steel");
        tap(&bench.window, Tab, "Spark");
        bench.answer("Long, few simple forks");
        tap(&bench.window, Tab, "End");
        bench.look("contradiction");
        assert_eq!(bench.figure(), "Contradiction");
        assert!(labelled(&bench.window, Button, "Use in the plan").is_none());
        let again = bench.lines().iter().filter(|line| line.starts_with("Again:")).count();
        assert!(again >= 2, "{:?}", bench.lines());
        bench.window.global::<ui::UnmarkedAdapter>().invoke_test_asked("chip".into());
        assert_eq!(bench.at(), "chip");
        bench.press("Cannot tell");
        bench.window.global::<ui::UnmarkedAdapter>().invoke_restart();
        assert_eq!((bench.at().as_str(), bench.figure().as_str()), ("file", "Any metal"));
        press(&bench.window, Key::Escape);
        assert_eq!(bench.page(), "steels");
    }
}

/// A hardness that is typed narrows what a coupon leaves, and goes into the plan with the core.
#[test]
fn a_typed_hardness_narrows_it() {
    let bench = Bench::from_picker(DESKTOP, Theme::Dark);
    bench.answer("Skates, the file gets dull");
    bench.answer("Bushy, bursts near the wheel");
    bench.answer("Strong pull");
    assert_eq!(bench.at(), "ground");
    bench.call("ground.bites");
    fill(&bench.window, "Hardness of the core", "31");
    bench.look("ground-typed");
    bench.press("Next: Quench");
    assert_eq!(bench.figure(), "1.40 % carbon");
    bench.call("quench-coupon.skates");
    fill(&bench.window, "Hardness of the quenched coupon", "52");
    // What is measured takes the place of what was felt: half martensite of 52 HRC is 0.58 % carbon.
    assert_eq!(bench.figure(), "0.62 % carbon");
    bench.look("quench-typed");
    tap(&bench.window, Tab, "End");
    bench.press("Use in the plan");
    assert_eq!(typed_at(&bench.state, Field::Hardness).as_deref(), Some("31\u{a0}HRC"));
    assert_eq!(typed_at(&bench.state, Field::Condition), None, "the hard layer is off");
    assert!(bench.state.planned_now().is_some());
}

/// From the Bench it is asked which part of the job the bar is; a question that asked gets the steel itself.
#[test]
fn the_bench_and_a_question_take_it_too() {
    let bench = Bench::new(PHONE, Theme::Light);
    bench.window.global::<ui::Shell>().invoke_place_chosen("bench".into());
    bench.window.global::<ui::BenchAdapter>().invoke_question_asked("unmarked-steel".into());
    mock_elapsed_time(20);
    assert_eq!(bench.page(), "unmarked");
    bench.answer("Bites with effort");
    bench.answer("Long, few simple forks");
    bench.answer("Strong pull");
    bench.call("was.section");
    bench.press("Next: End");
    assert!(labelled(&bench.window, Button, "Use in the plan").is_none(), "the demo has two parts");
    bench.look("end-two-parts");
    bench.press("Use as the second part");
    assert_eq!(bench.page(), "plan");
    assert_eq!(typed_at(&bench.state, Field::Steel.nth(1)).as_deref(), Some("Unmarked: 0.05–0.30 % C"));
    assert!(bench.state.planned_now().is_some());
    // For a question.
    bench.window.global::<ui::FormEvents>().invoke_pick_asked("ask:carbon-equivalent.steel".into());
    mock_elapsed_time(50);
    tap(&bench.window, Button, "Unmarked steel");
    bench.answer("Bites easily");
    bench.answer("Straight, leaf-shaped tails");
    bench.answer("Strong pull");
    bench.press("Cannot tell");
    bench.press("Use in the question");
    let kept = bench.state.session(|session| session.typed.get("carbon-equivalent.steel").cloned());
    assert_eq!(kept.as_deref(), Some("Unmarked: 0.00–0.30 % C"));
}
