//! How far do handbooks lie from the model, and from each other?

use super::growth::HANDBOOK_MIN;
use super::heating::Heating;
use super::history::Course;
use super::stages::Stage;
use crate::engine::EngineError;
use crate::reference::tint::{CoverageSet, TintColumn, TintData};

/// One printed figure beside the model at the handbook's time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TableCell {
    /// The stage of the printed word.
    pub stage: Stage,
    /// The printed figure, or the middle of its range, °C.
    pub printed_c: f64,
    /// The model, °C.
    pub model_c: f64,
    /// One sigma of the model, K.
    pub sigma_k: f64,
}

impl TableCell {
    /// Is the printed figure within so many sigma?
    #[must_use]
    pub fn within(&self, sigmas: f64) -> bool {
        (self.printed_c - self.model_c).abs() <= sigmas * self.sigma_k
    }
}

/// How many printed figures lie within one and two sigma.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Coverage {
    /// Figures.
    pub count: usize,
    /// Within one sigma.
    pub one_sigma: usize,
    /// Within two sigma.
    pub two_sigma: usize,
}

impl Coverage {
    fn of<'a>(cells: impl IntoIterator<Item = &'a TableCell>) -> Self {
        cells.into_iter().fold(Self::default(), |sum, cell| Self {
            count: sum.count + 1,
            one_sigma: sum.one_sigma + usize::from(cell.within(1.0)),
            two_sigma: sum.two_sigma + usize::from(cell.within(2.0)),
        })
    }
}

/// The cells of a column whose words belong to a stage, beside the model at 1.2 min.
///
/// # Errors
/// None with the embedded rows; a stage that the model can't reach.
pub fn cells(column: &TintColumn) -> Result<Vec<TableCell>, EngineError> {
    let handbook = Heating::new(Course::Constant { minutes: HANDBOOK_MIN })?;
    let unreachable = EngineError::NoAnswer { reason: "tint-past-first-order" };
    column
        .rows
        .iter()
        .filter_map(|row| Some((row, Stage::from_id(row.stage.as_deref()?)?)))
        .map(|(row, stage)| {
            let film_nm = stage.typical_nm();
            let (model_c, sigma_k) =
                handbook.peak_c(film_nm).zip(handbook.sigma_k(film_nm)).ok_or(unreachable)?;
            Ok(TableCell { stage, printed_c: row.middle_c(), model_c, sigma_k })
        })
        .collect()
}

/// Coverage of one column.
///
/// # Errors
/// As [`cells`].
pub fn column_coverage(column: &TintColumn) -> Result<Coverage, EngineError> {
    Ok(Coverage::of(&cells(column)?))
}

/// Coverage of a set of columns.
///
/// # Errors
/// As [`cells`].
pub fn set_coverage(set: CoverageSet) -> Result<Coverage, EngineError> {
    let columns = TintData::embedded().tables.columns.iter().filter(|column| column.sets.contains(&set));
    let cells = columns.map(cells).collect::<Result<Vec<_>, _>>()?;
    Ok(Coverage::of(cells.iter().flatten()))
}
