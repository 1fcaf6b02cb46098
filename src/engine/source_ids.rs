//! Ids of the rows in `data/sources.ron` that the engine's formulas rest on: one
//! place, so that a renamed row is a one-line change here.

use crate::reference::Basis;

/// EN 1011-2 (the same text as ISO/TR 17671-2).
pub(crate) const EN_1011_2: &str = "en-1011-2";
/// EN 1011-1 (the same text as ISO/TR 17671-1).
pub(crate) const EN_1011_1: &str = "en-1011-1";
/// AWS D1.1.
pub(crate) const AWS_D1_1: &str = "aws-d1-1";
/// SEW 088 Beiblatt 1 and 2, as a German textbook gives them.
pub(crate) const SEW_088: &str = "sew-088";
/// Ito and Bessyo, IIW Doc. IX-576-68, as a note on equivalents gives it.
pub(crate) const ITO_BESSYO: &str = "iiw-ix-576-68";
/// Yurioka, Suzuki, Ohshita, Saito, Welding Journal, June 1983.
pub(crate) const YURIOKA_1983: &str = "yurioka-1983";
/// A public note that lists carbon equivalents.
pub(crate) const CE_NOTE: &str = "ce-formulas-note";
/// A trade text with preheat by carbon equivalent.
pub(crate) const CEQ_TRADE_TEXT: &str = "ceq-trade-text";
/// An engineer's worksheet with worked examples.
pub(crate) const WORKSHEET: &str = "preheat-worksheet";
/// Suzuki et al., multi-run weld metal.
pub(crate) const SUZUKI: &str = "suzuki-multi-run";
/// Andrews 1965, JISI 203, 721.
pub(crate) const ANDREWS: &str = "andrews-1965";
/// A handbook of steel formulas that lists Grange and Eldis.
pub(crate) const STEEL_FORMULAS: &str = "steel-formulas-handbook";
/// A public thread with Steven and Haynes in °F, and a steelmaker's set.
pub(crate) const TRANSFORMATION_THREAD: &str = "transformation-thread";
/// Coe and Moreton 1969, Metal Science Journal 3, 209.
pub(crate) const COE_MORETON: &str = "coe-moreton-1969";
/// EEMUA 158, as an article on marine welding gives it.
pub(crate) const EEMUA_158: &str = "eemua-158";
/// National Structural Steelwork Specification, 5th edition.
pub(crate) const NSSS: &str = "nsss-5";
/// EN 1090-2:2008.
pub(crate) const EN_1090_2: &str = "en-1090-2";
/// CSA W59, as a welding bureau gives it.
pub(crate) const CSA_W59: &str = "csa-w59";
/// ASTM E140, from public copies.
pub(crate) const ASTM_E140: &str = "astm-e140";

/// The tint model's own fit and optics; this and the ids below stand in `data/tint_sources.ron`.
pub(crate) const TINT_FIT: &str = "tint-fit";
/// Planck's law.
pub(crate) const PLANCK: &str = "planck-radiance";
/// ISO 13916.
pub(crate) const ISO_13916: &str = "iso-13916";

/// Ids of `data/tint_sources.ron` that formulas rest on, for the test that each one has its row.
pub const TINT: [&str; 3] = [TINT_FIT, PLANCK, ISO_13916];

/// Every id of `data/sources.ron` above, for the test that each one has its row.
pub const ALL: [&str; 19] = [
    EN_1011_2,
    EN_1011_1,
    AWS_D1_1,
    SEW_088,
    ITO_BESSYO,
    YURIOKA_1983,
    CE_NOTE,
    CEQ_TRADE_TEXT,
    WORKSHEET,
    SUZUKI,
    ANDREWS,
    STEEL_FORMULAS,
    TRANSFORMATION_THREAD,
    COE_MORETON,
    EEMUA_158,
    NSSS,
    EN_1090_2,
    CSA_W59,
    ASTM_E140,
];

/// A basis in one of the sources above.
pub(crate) const fn published(source: &'static str, clause: &'static str) -> Basis {
    Basis::published(source, clause)
}
