//! Puts a picture between the other parts of a card.

use super::blocks::Sides;
use super::content::Picture;
use super::draw::Role;
use super::strip::{Strip, Strips};
use super::{cycle_draw, pieces_picture};

/// Puts a picture, with what it shows in words.
pub(super) fn put(strips: &mut Strips, says: &str, picture: &Picture, (left, right): Sides) {
    strips.keep_with_next();
    let node = strips.node(Role::Picture { says: says.to_owned() }, None);
    let (drawn, height) = match picture {
        Picture::Cycle(cycle) => cycle_draw::draw(cycle, right - left),
        Picture::Pieces(pieces) => pieces_picture::draw(pieces, right - left),
    };
    let mut strip = Strip::of(height + 2.0);
    strip.before = 4.0;
    for one in drawn {
        strip.put(Some(node), one.moved((left, 0.0)));
    }
    strips.strips.push(strip);
}
