//! A coupon of the bar: what is typed of it counts for the steel that it was made of, and for no other.

use super::kept::Kept;
use crate::app::State;
use crate::app::form::question;
use crate::engine::tint::Coupon;
use crate::job::Field;
use crate::questions::{coupon_taught, find};

/// The question that reads a coupon.
pub(super) const NAME: &str = "tint-coupon";

/// What the steel of a part of the plan is known by: by what is typed for it.
pub(super) fn part_key(state: &State, index: usize) -> String {
    let steel = state
        .session(|session| session.job.get(Field::Steel.nth(index)).unwrap_or_default().trim().to_owned());
    in_this_job(state, &format!("= {steel}"))
}

/// Another job is welded of another bar, even where its steel has the same name.
pub(super) fn in_this_job(state: &State, steel: &str) -> String {
    state.session(|session| format!("{} {steel}", session.job_mark))
}

/// The coupon of a steel, where one was made.
pub(super) fn of(state: &State, key: &str) -> Option<Coupon> {
    if Kept::CouponOf.choice(state).as_deref() != Some(key) {
        return None;
    }
    coupon_taught(&question::answers(state, find(NAME)?)?).ok()
}

/// The coupon of a part of the plan.
pub(crate) fn of_part(state: &State, index: usize) -> Option<Coupon> {
    of(state, &part_key(state, index))
}
