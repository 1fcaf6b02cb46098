//! Which steel may a part without a mark be? A guided test that sorts, and never names.
//!
//! Each answer allows some families and, for steel, a range of carbon. All answers together leave what each
//! of them allows; where nothing is left they contradict each other, and the widest reading stands.

mod answered;
mod end;
mod families;
mod martensite;
mod outcomes;

pub use answered::{Answered, core, density, quenched, row};
pub use end::{Alloy, End, Next, Reading, next, read};
pub use families::{Families, Family};
pub use martensite::{carbon_of_all, carbon_of_half};
pub use outcomes::{Sorted, sorted, treat_as};
