//! A card as a PDF: real text in an embedded font, tagged by the parts of the card, and refused by the
//! library's own validator where it breaks PDF/UA-1 or PDF/A-2a.

use std::num::NonZeroU16;

use krilla::color::rgb;
use krilla::configure::{Accessibility, Archival, ConfigurationBuilder};
use krilla::destination::XyzDestination;
use krilla::geom::{Path, PathBuilder, Point as At, Rect};
use krilla::metadata::{DateTime, Metadata};
use krilla::outline::{Outline, OutlineNode};
use krilla::page::PageSettings;
use krilla::paint::{Fill, LineCap, LineJoin, Stroke, StrokeDash};
use krilla::surface::Surface;
use krilla::tagging::{
    Artifact, ArtifactType, BBox, ContentTag, Identifier, ListNumbering, Node as Branch, SpanTag,
    TableHeaderScope, Tag, TagGroup, TagKind, TagTree,
};
use krilla::text::{Font, GlyphId, KrillaGlyph};
use krilla::{Document, SerializeSettings};

use super::draw::{Drawn, Ink, Item, Pages, Point, Role, Run, Weight};
use super::face;
use crate::log::Moment;

/// Why no PDF was made.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error("{0}")]
pub struct PdfError(pub String);

/// The radius of a circle that four curves are nearly, as a part of their handles.
pub(super) const ROUND: f64 = 0.552_284_75;

/// Makes the file.
///
/// # Errors
/// Where the library refuses the pages; it lists what breaks which rule.
pub fn pdf(pages: &Pages, moment: Moment) -> Result<Vec<u8>, PdfError> {
    let configuration = ConfigurationBuilder::new()
        .with_archival_validator(Archival::A2_A)
        .with_accessibility_validator(Accessibility::UA1)
        .finish()
        .map_err(|problem| PdfError(format!("{problem:?}")))?;
    let settings = SerializeSettings { configuration, ..SerializeSettings::default() };
    let mut document = Document::new_with(settings);
    let fonts = [Weight::Regular, Weight::Strong].map(|weight| Font::new(face::file(weight).into(), 0));
    let [Some(regular), Some(strong)] = fonts else { return Err(PdfError("font".to_owned())) };
    let fonts = [regular, strong];
    let mut parts: Vec<Part> = pages.nodes.iter().map(|_| Part::default()).collect();
    for (at, page) in pages.pages.iter().enumerate() {
        let (width, height) = pages.paper.size();
        let size = PageSettings::from_wh(width as f32, height as f32);
        let size = size.ok_or_else(|| PdfError("paper".to_owned()))?;
        let mut made = document.start_page_with(size);
        let mut surface = made.surface();
        for run in page.in_order().chunk_by(|one, other| one.node == other.node) {
            draw_run(&mut surface, run, (at, pages), &fonts, &mut parts);
        }
        surface.finish();
        made.finish();
    }
    document.set_outline(outline(pages, &parts));
    document.set_tag_tree(tree(pages, parts));
    document.set_metadata(metadata(pages, moment));
    document.finish().map_err(|problem| PdfError(format!("{problem:?}")))
}

/// What of a part was drawn, and where.
#[derive(Default)]
struct Part {
    drawn: Vec<Identifier>,
    /// The page that it begins on, and what it covers there.
    place: Option<(usize, (Point, Point))>,
}

/// Draws items of one part.
fn draw_run(
    surface: &mut Surface<'_>,
    items: &[&Item],
    (page, pages): (usize, &Pages),
    fonts: &[Font; 2],
    parts: &mut [Part],
) {
    let node = items.first().and_then(|item| item.node);
    let picture = node.is_some_and(|node| matches!(pages.nodes[node].role, Role::Picture { .. }));
    let tag = match node {
        None => ContentTag::Artifact(Artifact::with_kind(ArtifactType::Layout)),
        Some(_) if picture => ContentTag::Other,
        Some(_) => ContentTag::Span(SpanTag::empty()),
    };
    let drawn = surface.start_tagged(tag);
    items.iter().for_each(|item| draw(surface, &item.drawn, fonts));
    surface.end_tagged();
    if let Some(part) = node.and_then(|node| parts.get_mut(node)) {
        part.drawn.push(drawn);
        for item in items {
            let bounds = item.drawn.bounds();
            match &mut part.place {
                None => part.place = Some((page, bounds)),
                Some((began, covered)) if *began == page => *covered = around(*covered, bounds),
                Some(_) => {}
            }
        }
    }
}

fn around(one: (Point, Point), other: (Point, Point)) -> (Point, Point) {
    let ((left, top), (right, bottom)) = one;
    let ((l, t), (r, b)) = other;
    ((left.min(l), top.min(t)), (right.max(r), bottom.max(b)))
}

fn fill(ink: Ink) -> Fill {
    let (red, green, blue) = ink.rgb();
    Fill { paint: rgb::Color::new(red, green, blue).into(), ..Fill::default() }
}

fn draw(surface: &mut Surface<'_>, drawn: &Drawn, fonts: &[Font; 2]) {
    match drawn {
        Drawn::Text(run) => text(surface, run, fonts),
        Drawn::Line { points, width, ink, dash } => {
            stroke(surface, &path(points, false), (*width, *ink), *dash);
        }
        Drawn::Area { points, ink } => {
            surface.set_stroke(None);
            surface.set_fill(Some(fill(*ink)));
            if let Some(path) = path(points, true) {
                surface.draw_path(&path);
            }
        }
        Drawn::Disc { centre, radius, ink } => {
            surface.set_stroke(None);
            surface.set_fill(Some(fill(*ink)));
            if let Some(path) = circle(*centre, *radius) {
                surface.draw_path(&path);
            }
        }
        Drawn::Ring { centre, radius, width, ink } => {
            stroke(surface, &circle(*centre, *radius), (*width, *ink), None);
        }
    }
}

fn stroke(
    surface: &mut Surface<'_>,
    path: &Option<Path>,
    (width, ink): (f64, Ink),
    dash: Option<(f64, f64)>,
) {
    let Some(path) = path else { return };
    let dash = dash.map(|(on, off)| StrokeDash { array: vec![on as f32, off as f32], offset: 0.0 });
    surface.set_fill(None);
    surface.set_stroke(Some(Stroke {
        paint: fill(ink).paint,
        width: width as f32,
        line_cap: LineCap::Butt,
        line_join: LineJoin::Round,
        dash,
        ..Stroke::default()
    }));
    surface.draw_path(path);
}

fn path(points: &[Point], closed: bool) -> Option<Path> {
    let mut made = PathBuilder::new();
    let (first, rest) = points.split_first()?;
    made.move_to(first.0 as f32, first.1 as f32);
    rest.iter().for_each(|point| made.line_to(point.0 as f32, point.1 as f32));
    if closed {
        made.close();
    }
    made.finish()
}

fn circle((x, y): Point, radius: f64) -> Option<Path> {
    let mut made = PathBuilder::new();
    let at = |right: f64, down: f64| ((x + right * radius) as f32, (y + down * radius) as f32);
    let start = at(1.0, 0.0);
    made.move_to(start.0, start.1);
    let mut from = (1.0, 0.0);
    for _ in 0..4 {
        // A quarter further, the same way round.
        let to = (-from.1, from.0);
        let one = at(from.0 + ROUND * to.0, from.1 + ROUND * to.1);
        let other = at(to.0 + ROUND * from.0, to.1 + ROUND * from.1);
        let end = at(to.0, to.1);
        made.cubic_to(one.0, one.1, other.0, other.1, end.0, end.1);
        from = to;
    }
    made.close();
    made.finish()
}

fn text(surface: &mut Surface<'_>, run: &Run, fonts: &[Font; 2]) {
    let glyphs: Vec<KrillaGlyph> = face::glyphs(&run.text, run.weight)
        .map(|(at, letter, glyph)| {
            let range = at..at + letter.len_utf8();
            KrillaGlyph::new(GlyphId::new(glyph.id), glyph.advance as f32, 0.0, 0.0, 0.0, range, None)
        })
        .collect();
    surface.set_stroke(None);
    surface.set_fill(Some(fill(run.ink)));
    let at = At::from_xy(run.at.0 as f32, run.at.1 as f32);
    let font = fonts[run.weight as usize].clone();
    surface.draw_glyphs(at, &glyphs, font, &run.text, run.size as f32, false);
}

/// The headings of the card and of its sections, each with its place.
fn outline(pages: &Pages, parts: &[Part]) -> Outline {
    let mut outline = Outline::new();
    for (node, part) in pages.nodes.iter().zip(parts) {
        let Role::Heading { level: 1 | 2, text } = &node.role else { continue };
        let Some((page, ((left, top), _))) = part.place else { continue };
        let place = XyzDestination::new(page, At::from_xy(left as f32, top as f32));
        outline.push_child(OutlineNode::new(text.clone(), place));
    }
    outline
}

fn tree(pages: &Pages, parts: Vec<Part>) -> TagTree {
    // A part comes after what it is within, so that going back from the last one, each is whole when it
    // is put into its own.
    let mut groups: Vec<TagGroup> = Vec::with_capacity(parts.len());
    let mut below: Vec<Vec<usize>> = vec![Vec::new(); parts.len()];
    for (at, node) in pages.nodes.iter().enumerate() {
        if let Some(within) = node.within {
            below[within].push(at);
        }
        groups.push(TagGroup::new(tag(&node.role, parts[at].place)));
    }
    let said: Vec<bool> = parts.iter().map(|part| !part.drawn.is_empty()).collect();
    for (group, part) in groups.iter_mut().zip(parts) {
        part.drawn.into_iter().for_each(|drawn| group.push(drawn));
    }
    let mut groups: Vec<Option<TagGroup>> = groups.into_iter().map(Some).collect();
    for at in (0..groups.len()).rev() {
        let inside: Vec<TagGroup> = below[at].iter().filter_map(|&child| groups[child].take()).collect();
        // What nothing was drawn of is no part: a reader would stop at it and say nothing.
        if inside.is_empty() && !said[at] {
            groups[at] = None;
        }
        if let Some(group) = &mut groups[at] {
            inside.into_iter().for_each(|child| group.push(Branch::from(child)));
        }
    }
    let mut tree = TagTree::new().with_lang(Some(pages.language.clone()));
    groups.into_iter().flatten().for_each(|group| tree.push(Branch::from(group)));
    tree
}

fn tag(role: &Role, place: Option<(usize, (Point, Point))>) -> TagKind {
    let bounds = place.and_then(|(page, ((left, top), (right, bottom)))| {
        let rect = Rect::from_ltrb(left as f32, top as f32, right as f32, bottom as f32)?;
        Some(BBox::new(page, rect))
    });
    match role {
        Role::Heading { level, text } => {
            let level = NonZeroU16::new(u16::from(*level)).unwrap_or(NonZeroU16::MIN);
            Tag::Hn(level, Some(text.clone())).into()
        }
        Role::Paragraph => Tag::P.into(),
        Role::List { numbered: true } => Tag::L(ListNumbering::Decimal).into(),
        Role::List { numbered: false } => Tag::L(ListNumbering::None).into(),
        Role::Entry => Tag::LI.into(),
        Role::EntryMark => Tag::Lbl.into(),
        Role::EntryText => Tag::LBody.into(),
        Role::Table { summary } => Tag::Table.with_summary(Some(summary.clone())).into(),
        Role::TableHead => Tag::THead.into(),
        Role::TableBody => Tag::TBody.into(),
        Role::Row => Tag::TR.into(),
        Role::ColumnHead => Tag::TH(TableHeaderScope::Column).into(),
        Role::RowHead => Tag::TH(TableHeaderScope::Row).into(),
        Role::Cell => Tag::TD.into(),
        Role::Picture { says } => Tag::Figure(Some(says.clone())).with_bbox(bounds).into(),
    }
}

fn metadata(pages: &Pages, moment: Moment) -> Metadata {
    let (year, month, day, hour, minute) = moment.on_clock();
    let hours = i8::try_from(moment.offset_min / 60).unwrap_or(0);
    let minutes = (moment.offset_min % 60).unsigned_abs();
    let date = DateTime::new(year.unsigned_abs())
        .month(month.unsigned_abs())
        .day(day.unsigned_abs())
        .hour(hour.unsigned_abs())
        .minute(minute.unsigned_abs())
        .second(0)
        .utc_offset_hour(hours)
        .utc_offset_minute(u8::try_from(minutes).unwrap_or(0));
    Metadata::new()
        .title(pages.title.clone())
        .language(pages.language.clone())
        .creator(format!("Strawblue {}", env!("CARGO_PKG_VERSION")))
        .creation_date(date)
}
