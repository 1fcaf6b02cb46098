//! What of the texts on the screen can be read: where their letters stand, and what of them is cut, lies on
//! another text or has left the window.

use i_slint_core::graphics::euclid::default::Box2D;
use i_slint_core::item_tree::ItemRc;
use i_slint_core::items::{
    Clip, ComplexText, Flickable, SimpleText, TextHorizontalAlignment, TextVerticalAlignment, TextWrap,
};
use i_slint_core::window::WindowInner;
use slint::ComponentHandle;
use strawblue::app::ui;

use super::measure::{Measure, Weight};

/// Letters may come this near to an edge or to other letters, px: rounding to whole pixels.
const NEAR: f32 = 1.5;
/// Kerning, which the font's own widths know nothing of, makes a text narrower by this much at most.
const KERNED: f32 = 0.97;
/// A word that is longer than such a place breaks wherever it stands, px.
const LONG: f32 = 255.0;
/// Plex asks for so many times its size from line to line.
const NATURAL: f32 = 1.3;

/// The fonts of the window.
pub(crate) struct Fonts([Measure; 3]);

impl Fonts {
    pub(crate) fn new() -> Self {
        Self([Weight::Regular, Weight::Medium, Weight::SemiBold].map(Measure::new))
    }

    fn of(&self, weight: i32) -> &Measure {
        &self.0[if weight >= 600 { 2 } else { usize::from(weight >= 500) }]
    }
}

/// A text as it is drawn.
#[derive(Debug, Clone)]
pub(crate) struct Shown {
    pub(crate) said: String,
    pub(crate) size_px: f32,
    weight: i32,
    wraps: bool,
    /// At most so many lines; 0 for as many as it takes.
    most: i32,
    line_px: f32,
    /// From letter to letter, beside what the font asks for.
    apart_px: f32,
    place: Box2D<f32>,
    /// What of its place is not hidden by an edge.
    seen: Box2D<f32>,
    across: TextHorizontalAlignment,
    down: TextVerticalAlignment,
}

impl Shown {
    fn width(&self, text: &str, fonts: &Fonts) -> f32 {
        #[allow(clippy::cast_possible_truncation, reason = "pixels need no more than a float")]
        let wide = fonts.of(self.weight).width(text, f64::from(self.size_px)) as f32;
        #[allow(clippy::cast_precision_loss, reason = "few letters")]
        let apart = text.chars().count() as f32 * self.apart_px;
        wide * KERNED + apart
    }

    /// The lines that it takes, the widest of them, and the widest word.
    fn lines(&self, fonts: &Fonts) -> (i32, f32, f32) {
        let has = self.place.width() + 0.5;
        let (mut lines, mut widest, mut word_px) = (0, 0.0_f32, 0.0_f32);
        for paragraph in self.said.split('\n') {
            let mut at = 0.0;
            lines += 1;
            for word in paragraph.split(' ') {
                let space = self.width(" ", fonts);
                // A dash or a slash ends a line as a space does.
                for (nth, part) in word.split_inclusive(['-', '–', '/', '·']).enumerate() {
                    let (gap, wide) =
                        (if nth == 0 && at > 0.0 { space } else { 0.0 }, self.width(part, fonts));
                    word_px = word_px.max(wide);
                    if self.wraps && at > 0.0 && at + gap + wide > has {
                        lines += 1;
                        at = wide;
                    } else {
                        at += gap + wide;
                    }
                    // A word that is wider than its place goes on in the next line.
                    while self.wraps && at > has {
                        lines += 1;
                        at -= has;
                        widest = has;
                    }
                    widest = widest.max(at);
                }
            }
        }
        (lines, widest, word_px)
    }

    /// Where its letters stand, less the empty part over and under them.
    fn letters(&self, fonts: &Fonts) -> Box2D<f32> {
        let (lines, wide, _) = self.lines(fonts);
        #[allow(clippy::cast_precision_loss, reason = "few lines")]
        let high = lines as f32 * self.line_px;
        let place = &self.place;
        let left = match self.across {
            TextHorizontalAlignment::Center => place.center().x - wide / 2.0,
            TextHorizontalAlignment::Right | TextHorizontalAlignment::End => place.max.x - wide,
            _ => place.min.x,
        };
        let top = match self.down {
            TextVerticalAlignment::Center => place.center().y - high / 2.0,
            TextVerticalAlignment::Bottom => place.max.y - high,
            _ => place.min.y,
        };
        let empty = (self.line_px - self.size_px).max(0.0) / 2.0;
        Box2D::new((left, top + empty).into(), (left + wide, top + high - empty).into())
    }

    /// What of it can't be read.
    fn faults(&self, fonts: &Fonts, window: f32) -> Vec<String> {
        let (lines, wide, word) = self.lines(fonts);
        let (has, high) = (self.place.width(), self.place.height());
        let mut faults = Vec::new();
        let mut say = |what: String| faults.push(format!("“{}” {what}", self.said));
        if self.place.min.x < -0.5 || self.place.max.x > window + 0.5 {
            say(format!("leaves the window: {:.0} to {:.0}", self.place.min.x, self.place.max.x));
        } else if !self.wraps && wide > has + NEAR {
            say(format!("needs {wide:.0} px and has {has:.0}"));
        } else if self.wraps && word > has + NEAR && has < LONG {
            say(format!("has a word of {word:.0} px in {has:.0}"));
        }
        #[allow(clippy::cast_precision_loss, reason = "few lines")]
        let needs = lines as f32 * self.line_px;
        if (self.most > 0 && lines > self.most) || (self.wraps && needs > high + self.line_px * 0.3) {
            say(format!("takes {lines} lines, {needs:.0} px, and has {high:.0}"));
        }
        // What an edge hides of a line; a page that scrolls hides whole rows.
        if self.seen.width() < self.place.width().min(wide) - NEAR {
            say(format!("is hidden from {:.0} px on", self.seen.width()));
        }
        faults
    }
}

/// What of the texts on the screen can't be read. `layered`: a sheet lies over the page.
pub(crate) fn unread(window: &ui::AppWindow, fonts: &Fonts, layered: bool) -> Vec<String> {
    let size = window.window().size();
    #[allow(clippy::cast_precision_loss, reason = "pixels of a window")]
    let (wide, high) = (size.width as f32, size.height as f32);
    let shown = shown(window);
    let mut faults: Vec<String> = shown.iter().flat_map(|text| text.faults(fonts, wide)).collect();
    let letters: Vec<Box2D<f32>> = shown.iter().map(|text| text.letters(fonts)).collect();
    let window = Box2D::new((0.0, 0.0).into(), (wide, high).into());
    for (nth, text) in shown.iter().enumerate().filter(|_| !layered) {
        for (other, there) in shown.iter().zip(&letters).skip(nth + 1) {
            let both = [&letters[nth], there, &text.seen, &other.seen].into_iter();
            let common = both.fold(window, |common, next| common.intersection_unchecked(next));
            if common.width() > NEAR && common.height() > NEAR {
                faults.push(format!("“{}” lies on “{}”", other.said, text.said));
            }
        }
    }
    faults
}

/// Every text of which something is on the screen.
pub(crate) fn shown(window: &ui::AppWindow) -> Vec<Shown> {
    let size = window.window().size();
    #[allow(clippy::cast_precision_loss, reason = "pixels of a window")]
    let all = Box2D::new((0.0, 0.0).into(), (size.width as f32, size.height as f32).into());
    let mut found = Vec::new();
    gather(&ItemRc::new_root(WindowInner::from_pub(window.window()).component()), all, &mut found);
    found
}

fn place(item: &ItemRc) -> Box2D<f32> {
    let own = item.geometry();
    let at = item.map_to_window(own.origin);
    Box2D::new((at.x, at.y).into(), (at.x + own.width(), at.y + own.height()).into())
}

fn gather(item: &ItemRc, seen: Box2D<f32>, into: &mut Vec<Shown>) {
    let mut inner = seen;
    if let Some(clip) = item.downcast::<Clip>() {
        let clip = clip.as_pin_ref();
        if clip.clip() {
            // What is not visible takes measure, and is not drawn.
            if clip.is_visibility_clip() {
                return;
            }
            inner = inner.intersection_unchecked(&place(item));
        }
    }
    if item.downcast::<Flickable>().is_some() {
        inner = inner.intersection_unchecked(&place(item));
    }
    let at = place(item);
    if let Some(text) = item.downcast::<ComplexText>() {
        let text = text.as_pin_ref();
        put(
            into,
            &seen,
            Shown {
                said: said(&text.text()),
                size_px: text.font_size().get(),
                weight: text.font_weight(),
                wraps: text.wrap() != TextWrap::NoWrap,
                most: text.max_lines(),
                line_px: text.font_size().get() * NATURAL * text.line_height_factor(),
                apart_px: text.letter_spacing().get(),
                place: at,
                seen: at,
                across: text.horizontal_alignment(),
                down: text.vertical_alignment(),
            },
        );
    } else if let Some(text) = item.downcast::<SimpleText>() {
        let text = text.as_pin_ref();
        put(
            into,
            &seen,
            Shown {
                said: said(&text.text()),
                size_px: text.font_size().get(),
                weight: text.font_weight(),
                wraps: false,
                most: text.max_lines(),
                line_px: text.font_size().get() * NATURAL,
                apart_px: 0.0,
                place: at,
                seen: at,
                across: text.horizontal_alignment(),
                down: text.vertical_alignment(),
            },
        );
    }
    let mut child = item.first_child();
    while let Some(here) = child {
        gather(&here, inner, into);
        child = here.next_sibling();
    }
}

/// As it was said, before figures and units were held together.
fn said(drawn: &str) -> String {
    drawn.replace("\u{202f}\u{202f}", "\u{a0}").replace('\u{feff}', "")
}

fn put(into: &mut Vec<Shown>, seen: &Box2D<f32>, text: Shown) {
    let seen = text.place.intersection_unchecked(seen);
    if !text.said.trim().is_empty() && seen.width() > 0.0 && seen.height() > 0.0 {
        into.push(Shown { seen, ..text });
    }
}
