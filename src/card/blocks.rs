//! From the parts of a card to strips.

use super::content::{Block, Limit, Sign, Step};
use super::draw::{Drawn, Ink, Paper, Role, Weight};
use super::flow::{sides, tallest};
use super::signs::sign;
use super::strip::{BODY, Beside, HEAD, NOTE, SUBHEAD, Strip, Strips, Style};

/// Before a section, before a block.
const SECTION: f64 = 12.0;
const APART: f64 = 5.0;

/// Puts one part of a card.
pub(super) fn put(strips: &mut Strips, block: &Block, paper: Paper) {
    let (left, right) = sides(paper);
    match block {
        Block::Title { over, name, aside } => title(strips, (over, name, aside), (left, right)),
        Block::Heading { level, text, aside } => heading(strips, *level, text, aside, (left, right)),
        Block::Text(text) => paragraph(strips, text, Style::BODY, (left, right)),
        Block::Strong(text) => paragraph(strips, text, Style::STRONG, (left, right)),
        Block::Note(text) => paragraph(strips, text, Style::NOTE, (left, right)),
        Block::Blanks(blanks) => self::blanks(strips, blanks, (left, right)),
        Block::Limits(limits) => self::limits(strips, limits, (left, right)),
        Block::Facts(facts) => self::facts(strips, facts, (left, right)),
        Block::Order(steps) => order(strips, steps, (left, right), tallest(paper)),
        Block::Steps(steps) => self::steps(strips, steps, (left, right)),
        Block::Cautions(cautions) => self::cautions(strips, cautions, (left, right)),
        Block::Danger(text) => danger(strips, text, (left, right)),
        Block::Table(table) => super::table::put(strips, table, (left, right)),
        Block::Picture { says, picture } => super::pictures::put(strips, says, picture, (left, right)),
        Block::Signatures(names) => signatures(strips, names, (left, right)),
    }
}

/// The left and the right end.
pub(super) type Sides = (f64, f64);

fn paragraph(strips: &mut Strips, text: &str, style: Style, sides: Sides) {
    let node = strips.node(Role::Paragraph, None);
    strips.lines(node, text, style, sides, 3.0);
}

fn title(strips: &mut Strips, (over, name, aside): (&str, &str, &[String]), (left, right): Sides) {
    const ASIDE: f64 = 170.0;
    let over_style = Style::new(BODY, Weight::Regular, Ink::Soft);
    let name_style = Style::new(21.0, Weight::Strong, Ink::Ink);
    let text = strips.drawable(name);
    let node = strips.node(Role::Heading { level: 1, text: text.clone() }, None);
    let aside_node = strips.node(Role::Paragraph, None);
    let mut strip = Strip::of(over_style.height());
    strip.with_next = true;
    strip.put(Some(node), over_style.text(format!("{over} "), left, 0.0));
    for (at, line) in aside.iter().enumerate() {
        let line = strips.drawable(line);
        strip.put(Some(aside_node), over_style.text_to(line + " ", right, at as f64 * over_style.height()));
    }
    strips.strips.push(strip);
    let lines = name_style.lines(&text, right - left - ASIDE);
    strips.side_by_side(vec![Beside::new(node, name_style, lines, left)], name_style.height(), 0.0);
    strips.keep_with_next();
    let mut rule = Strip::of(7.0);
    rule.put(None, Drawn::straight((left, 4.0), (right, 4.0), 1.5, Ink::Ink));
    strips.strips.push(rule);
}

fn heading(strips: &mut Strips, level: u8, text: &str, aside: &str, (left, right): Sides) {
    let size = if level <= 2 { HEAD } else { SUBHEAD };
    let style = Style::new(size, Weight::Strong, Ink::Ink);
    let text = strips.drawable(text);
    let aside = strips.drawable(aside);
    let node = strips.node(Role::Heading { level, text: text.clone() }, None);
    let aside_width = Style::NOTE.width(&aside);
    let lines = style.lines(&text, right - left - aside_width - 12.0);
    let count = lines.len();
    for (at, line) in lines.into_iter().enumerate() {
        let first = at == 0;
        let mut strip = Strip::of(style.height() + if at + 1 == count { 2.0 } else { 0.0 });
        strip.with_next = true;
        strip.before = match (first, level) {
            (true, 0..=2) => SECTION,
            (true, _) => SECTION - 3.0,
            _ => 0.0,
        };
        strip.put(Some(node), style.text(line, left, 0.0));
        if first && !aside.is_empty() {
            let aside_node = strips.node(Role::Paragraph, None);
            let drawn =
                Style::NOTE.text_to(aside.clone(), right, style.height() - Style::NOTE.height() - 1.0);
            strip.put(Some(aside_node), drawn);
        }
        strip.rule = (first && level <= 2).then_some((left, right));
        strips.strips.push(strip);
    }
}

fn blanks(strips: &mut Strips, blanks: &[(String, Option<String>)], (left, right): Sides) {
    let value_style = Style::new(10.0, Weight::Strong, Ink::Ink);
    // A long text gets more room, and a line to write on keeps its own.
    let share =
        |value: &Option<String>| value.as_ref().map_or(1.0, |value| if value.len() > 24 { 2.0 } else { 1.0 });
    let whole: f64 = blanks.iter().map(|(_, value)| share(value)).sum();
    let width = |at: usize| (right - left) * share(&blanks[at].1) / whole.max(1.0);
    let room = |at: usize| width(at) - 14.0;
    let from = |at: usize| left + (0..at).map(width).sum::<f64>();
    let nodes: Vec<usize> = blanks.iter().map(|_| strips.node(Role::Paragraph, None)).collect();
    let mut labels = Vec::new();
    let mut values = Vec::new();
    for (at, (label, value)) in blanks.iter().enumerate() {
        let label = strips.drawable(label) + " ";
        labels.push(Beside::new(nodes[at], Style::NOTE, Style::NOTE.lines(&label, room(at)), from(at)));
        let lines = value.as_deref().map(|value| {
            let value = strips.drawable(value);
            value_style.lines(&value, room(at))
        });
        values.push(Beside::new(nodes[at], value_style, lines.unwrap_or_default(), from(at)));
    }
    // A line to write on needs its height where nothing is told at all.
    let empty: Vec<usize> = (0..blanks.len()).filter(|&at| values[at].lines.is_empty()).collect();
    if let (Some(first), true) = (values.first_mut(), empty.len() == blanks.len()) {
        first.lines.push(String::new());
    }
    strips.side_by_side(labels, Style::NOTE.height(), 3.0);
    strips.keep_with_next();
    let first = strips.side_by_side(values, value_style.height(), 1.0);
    if let Some(strip) = strips.strips.get_mut(first) {
        let y = strip.height - 1.0;
        for at in empty {
            strip.put(None, Drawn::straight((from(at), y), (from(at) + room(at), y), 0.75, Ink::Soft));
        }
    }
}

fn limits(strips: &mut Strips, limits: &[Limit], (left, right): Sides) {
    const INSIDE: f64 = 10.0;
    let figure_style = Style::new(28.0, Weight::Strong, Ink::Ink);
    let word_style = Style::new(14.0, Weight::Strong, Ink::Ink);
    let unit_style = Style::new(12.0, Weight::Strong, Ink::Soft);
    let width = (right - left) / limits.len().max(1) as f64;
    let room = width - 2.0 * INSIDE;
    let (label_top, figure_top) = (6.0, 19.0);
    let is_figure = |limit: &Limit| limit.figure.chars().all(|sign| !sign.is_alphabetic());
    // A word in the place of a figure is as long as it needs.
    let words = limits.iter().filter(|limit| !is_figure(limit));
    let words = words.map(|limit| word_style.lines(&limit.figure, room).len()).max().unwrap_or(0);
    let basis_top = figure_top + (words as f64 * word_style.height() + 2.0).max(34.0);
    let mut most = 1;
    let mut strip = Strip::of(0.0);
    strip.before = APART;
    for (at, limit) in limits.iter().enumerate() {
        let node = strips.node(Role::Paragraph, None);
        let from = left + at as f64 * width + INSIDE;
        let label = strips.drawable(&limit.label);
        strip.put(Some(node), Style::BODY.text(label + " ", from, label_top));
        let figure = strips.drawable(&limit.figure);
        if is_figure(limit) {
            strip.put(Some(node), figure_style.text(format!("{figure} "), from, figure_top - 3.0));
            let after = from + figure_style.width(&figure) + 6.0;
            let unit = strips.drawable(&limit.unit);
            strip.put(Some(node), unit_style.text(unit + " ", after, figure_top + 12.0));
        } else {
            for (row, line) in word_style.lines(&figure, room).into_iter().enumerate() {
                let top = figure_top + row as f64 * word_style.height();
                strip.put(Some(node), word_style.text(line, from, top));
            }
        }
        let basis = strips.drawable(&limit.basis);
        let shift = if limit.sign.is_some() { 12.0 } else { 0.0 };
        let lines = Style::NOTE.lines(&basis, room - shift);
        most = most.max(lines.len());
        if let Some(kind) = limit.sign {
            for drawn in sign(kind, (from, basis_top + 1.5), 8.0) {
                strip.put(None, drawn);
            }
        }
        for (row, line) in lines.into_iter().enumerate() {
            let top = basis_top + row as f64 * Style::NOTE.height();
            strip.put(Some(node), Style::NOTE.text(line, from + shift, top));
        }
        if at > 0 {
            let x = left + at as f64 * width;
            strip.put(None, Drawn::straight((x, 6.0), (x, basis_top + 10.0), 0.5, Ink::Hair));
        }
    }
    let height = basis_top + Style::NOTE.height() * most as f64 + 5.0;
    strip.put(None, Drawn::framed((left + 0.5, 0.5), (right - 0.5, height - 0.5), 1.0, Ink::Ink));
    strip.height = height + 1.0;
    strips.strips.push(strip);
}

fn facts(strips: &mut Strips, facts: &[(String, String)], (left, right): Sides) {
    const GAP: f64 = 14.0;
    const LABEL: f64 = 104.0;
    let width = (right - left - GAP) / 2.0;
    let half = facts.len().div_ceil(2);
    // Read down the first column, then down the second.
    let mut pair = || [strips.node(Role::Paragraph, None), strips.node(Role::Paragraph, None)];
    let nodes: Vec<[usize; 2]> = facts.iter().map(|_| pair()).collect();
    for row in 0..half {
        let mut cells = Vec::new();
        for (column, at) in [row, row + half].into_iter().enumerate() {
            let Some((label, value)) = facts.get(at) else { continue };
            let from = left + column as f64 * (width + GAP);
            let (label, value) = (strips.drawable(label) + " ", strips.drawable(value));
            let label = Style::NOTE.lines(&label, LABEL - 4.0);
            cells.push(Beside::new(nodes[at][0], Style::NOTE, label, from));
            let value = Style::STRONG.lines(&value, width - LABEL);
            cells.push(Beside::new(nodes[at][1], Style::STRONG, value, from + LABEL));
        }
        strips.side_by_side(cells, Style::STRONG.height(), if row == 0 { APART } else { 1.0 });
    }
}

/// The parts of a step, each read whole before the next: number, way, what, figure.
struct StepParts {
    mark: usize,
    body: usize,
    way: usize,
    what: usize,
    figure: usize,
}

impl StepParts {
    fn of(strips: &mut Strips, list: usize) -> Self {
        let entry = strips.node(Role::Entry, Some(list));
        let mark = strips.node(Role::EntryMark, Some(entry));
        let body = strips.node(Role::EntryText, Some(entry));
        let mut part = || strips.node(Role::Paragraph, Some(body));
        Self { mark, body, way: part(), what: part(), figure: part() }
    }
}

/// The steps at a glance, in two columns.
fn order(strips: &mut Strips, steps: &[Step], (left, right): Sides, tallest: f64) {
    const GAP: f64 = 18.0;
    const NUMBER: f64 = 18.0;
    let width = (right - left - GAP) / 2.0;
    let way_style = Style::new(NOTE, Weight::Strong, Ink::Soft);
    let list = strips.node(Role::List { numbered: true }, None);
    let mut made: Vec<Strip> = Vec::new();
    for step in steps {
        let parts = StepParts::of(strips, list);
        let mut strip = Strip::default();
        if !step.way.is_empty() {
            let way = strips.drawable(&step.way) + " ";
            strip.height = 2.0;
            for line in way_style.lines(&way, width) {
                strip.put(Some(parts.way), way_style.text(line, 0.0, strip.height));
                strip.height += way_style.height();
            }
        }
        let figure = strips.drawable(&step.figure);
        let what = strips.drawable(&step.what) + " ";
        let top = strip.height;
        strip.put(Some(parts.mark), Style::STRONG.text_to(step.number.clone(), NUMBER - 5.0, top));
        for line in Style::BODY.lines(&what, width - NUMBER - Style::STRONG.width(&figure) - 8.0) {
            strip.put(Some(parts.what), Style::BODY.text(line, NUMBER, strip.height));
            strip.height += Style::BODY.height();
        }
        if !figure.is_empty() {
            strip.put(Some(parts.figure), Style::STRONG.text_to(figure, width, top));
        }
        strip.height += 1.0;
        strip.put(None, Drawn::straight((0.0, strip.height), (width, strip.height), 0.5, Ink::Hair));
        strip.height += 1.0;
        made.push(strip);
    }
    // The first column ends where half of the height is reached.
    let whole: f64 = made.iter().map(|strip| strip.height).sum();
    let longest = made.iter().map(|strip| strip.height).fold(0.0, f64::max);
    if whole / 2.0 + longest > tallest {
        // More than a page holds: one column, which goes on over the pages.
        for mut strip in made {
            let items = std::mem::take(&mut strip.items).into_iter();
            items.for_each(|item| strip.put(item.node, item.drawn.moved((left, 0.0))));
            strips.strips.push(strip);
        }
        return;
    }
    let mut both = Strip::default();
    let (mut down, mut column) = (0.0, 0.0);
    for strip in made {
        if column == 0.0 && down >= whole / 2.0 {
            (down, column) = (0.0, width + GAP);
        }
        for item in strip.items {
            both.put(item.node, item.drawn.moved((left + column, down)));
        }
        down += strip.height;
        both.height = both.height.max(down);
    }
    strips.strips.push(both);
}

fn steps(strips: &mut Strips, steps: &[Step], (left, right): Sides) {
    const NUMBER: f64 = 20.0;
    let way_style = Style::new(BODY, Weight::Strong, Ink::Soft);
    let list = strips.node(Role::List { numbered: true }, None);
    for step in steps {
        let parts = StepParts::of(strips, list);
        if !step.way.is_empty() {
            strips.lines(parts.way, &step.way, way_style, (left, right), 6.0);
            strips.keep_with_next();
        }
        let figure = strips.drawable(&step.figure);
        let room = right - Style::STRONG.width(&figure) - 10.0;
        let first = strips.strips.len();
        strips.lines(parts.what, &step.what, Style::STRONG, (left + NUMBER, room), 4.0);
        if let Some(strip) = strips.strips.get_mut(first) {
            strip.put(Some(parts.mark), Style::STRONG.text_to(step.number.clone(), left + NUMBER - 6.0, 0.0));
            if !figure.is_empty() {
                strip.put(Some(parts.figure), Style::STRONG.text_to(figure, right, 0.0));
            }
        }
        if !step.notes.is_empty() {
            strips.keep_with_next();
        }
        for note in &step.notes {
            let node = strips.node(Role::Paragraph, Some(parts.body));
            strips.lines(node, note, Style::NOTE, (left + NUMBER, right), 0.5);
        }
    }
}

fn cautions(strips: &mut Strips, cautions: &[(String, String)], (left, right): Sides) {
    const MARK: f64 = 15.0;
    let list = strips.node(Role::List { numbered: false }, None);
    for (title, does) in cautions {
        let entry = strips.node(Role::Entry, Some(list));
        let says = strips.node(Role::EntryText, Some(entry));
        let first = strips.strips.len();
        strips.lines(says, &format!("{title} "), Style::STRONG, (left + MARK, right), 4.0);
        if let Some(strip) = strips.strips.get_mut(first) {
            for drawn in sign(Sign::Heed, (left, 1.0), 10.0) {
                strip.put(None, drawn);
            }
        }
        strips.keep_with_next();
        strips.lines(says, does, Style::NOTE, (left + MARK, right), 0.0);
    }
}

fn danger(strips: &mut Strips, text: &str, (left, right): Sides) {
    let node = strips.node(Role::Paragraph, None);
    let first = strips.strips.len();
    strips.lines(node, text, Style::STRONG, (left + 15.0, right), APART);
    if let Some(strip) = strips.strips.get_mut(first) {
        for drawn in sign(Sign::Caution, (left, 1.0), 10.0) {
            strip.put(None, drawn);
        }
    }
}

fn signatures(strips: &mut Strips, names: &[String], (left, right): Sides) {
    let width = (right - left) / names.len().max(1) as f64;
    let mut strip = Strip::of(44.0);
    strip.before = SECTION;
    for (at, name) in names.iter().enumerate() {
        let from = left + at as f64 * width;
        let node = strips.node(Role::Paragraph, None);
        let name = strips.drawable(name);
        strip.put(None, Drawn::straight((from, 30.0), (from + width - 14.0, 30.0), 0.75, Ink::Ink));
        strip.put(Some(node), Style::NOTE.text(name + " ", from, 32.0));
    }
    strips.strips.push(strip);
}
