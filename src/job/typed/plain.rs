//! Yes or no, code, shape.

use super::{not_understood, words_of};
use crate::engine::job::Code;
use crate::units::{Accepts, Problem};

/// Yes or no.
///
/// # Errors
/// A [`Problem`] for anything else.
pub fn yes_no(text: &str) -> Result<bool, Problem> {
    match words_of(text).join(" ").as_str() {
        "yes" | "y" | "true" | "1" | "on" => Ok(true),
        "no" | "n" | "false" | "0" | "off" | "none" => Ok(false),
        _ => Err(not_understood(text, Accepts::YesNo)),
    }
}

/// The code that the job names: `none`, `D1.1`, `AWS D1.1`.
///
/// # Errors
/// A [`Problem`] for anything else.
pub fn code(text: &str) -> Result<Code, Problem> {
    match words_of(text).join(" ").as_str() {
        "none" | "no" => Ok(Code::None),
        "d1.1" | "aws d1.1" | "d1.1/d1.1m" | "d11" => Ok(Code::AwsD11),
        _ => Err(not_understood(text, Accepts::Code)),
    }
}

/// Is the shape a solid round?
///
/// # Errors
/// A [`Problem`] if it is neither a plate nor a round.
pub fn shape_is_round(text: &str) -> Result<bool, Problem> {
    match words_of(text).join(" ").as_str() {
        "round" | "round bar" | "bar" | "shaft" | "pin" | "boss" => Ok(true),
        "plate" | "flat" | "sheet" | "flat bar" | "arm" => Ok(false),
        _ => Err(not_understood(text, Accepts::Shape)),
    }
}
