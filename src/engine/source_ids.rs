//! Ids of the rows in `data/sources.ron` that the engine's formulas rest on: one
//! place, so that a renamed row is a one-line change here.

use crate::reference::Basis;

/// EN 1011-2 (the same text as ISO/TR 17671-2): only Table C.1 was seen in the standard
/// itself.
pub(crate) const EN_1011_2: &str = "en-1011-2";
/// EN 1011-1 Table 1, as a steelmaker gives it.
pub(crate) const HEAT_INPUT_PAGE: &str = "steelmaker-heat-input";
/// Carbon equivalents, as a welding institute's answers give them.
pub(crate) const CE_ANSWERS: &str = "twi-ce-faq";
/// Both equations of SEW 088 Beiblatt 2, as a public text gives them.
pub(crate) const T85_TEXT: &str = "german-t85-a";
/// AWS D1.1, wait before inspection, as a welding bureau gives it.
pub(crate) const AWS_D1_1: &str = "cwb";
/// AWS D1.1, the annex on preheat (2008: I; 2020: B).
pub(crate) const D11_ANNEX: &str = "d11-2008-annex-i";
/// SEW 088 Beiblatt 1 and 2, as a German textbook gives them.
pub(crate) const SEW_088: &str = "german-steel-textbook";
/// Ito and Bessyo, IIW Doc. IX-576-68, as a note on equivalents gives it.
pub(crate) const ITO_BESSYO: &str = "fastener-ce-note";
/// Yurioka, Suzuki, Ohshita, Saito, Welding Journal, June 1983.
pub(crate) const YURIOKA_1983: &str = "yurioka-1983";
/// A public note that lists carbon equivalents.
pub(crate) const CE_NOTE: &str = "fastener-ce-note";
/// A trade text with preheat by carbon equivalent.
pub(crate) const CEQ_TRADE_TEXT: &str = "ceq-trade-text";
/// An engineer's worksheet with worked examples.
pub(crate) const WORKSHEET: &str = "engineers-worksheet";
/// Suzuki et al., multi-run weld metal.
pub(crate) const SUZUKI: &str = "suzuki-multi-run";
/// Andrews 1965, JISI 203, 721.
pub(crate) const ANDREWS: &str = "gorni-handbook";
/// A handbook of steel formulas that lists Grange and Eldis.
pub(crate) const STEEL_FORMULAS: &str = "gorni-handbook";
/// A public thread with Steven and Haynes in °F, and a steelmaker's set.
pub(crate) const TRANSFORMATION_THREAD: &str = "engineering-thread-ms";
/// Coe and Moreton 1969, Metal Science Journal 3, 209.
pub(crate) const COE_MORETON: &str = "coe-moreton";
/// EEMUA 158, as an article on marine welding gives it.
pub(crate) const EEMUA_158: &str = "marine-article-2019";
/// National Structural Steelwork Specification, 5th edition, as the same article gives it.
pub(crate) const NSSS: &str = "marine-article-2019";
/// EN 1090-2:2008.
pub(crate) const EN_1090_2: &str = "en-1090-2";
/// CSA W59, as a welding bureau gives it.
pub(crate) const CSA_W59: &str = "cwb";
/// ASTM E140, from public copies.
pub(crate) const ASTM_E140: &str = "astm-e140";

/// The tint model's own fit and optics.
pub(crate) const TINT_FIT: &str = "tint-fit";
/// Planck's law.
pub(crate) const PLANCK: &str = "planck-radiance";
/// ISO 13916.
pub(crate) const ISO_13916: &str = "iso-13916";
/// A page that quotes the clause of AWS D1.1 on the preheated zone.
pub(crate) const D11_ZONE: &str = "d11-zone-page";

/// What the person typed from drawing, procedure or customer's sheet: no source that was seen.
pub(crate) const OWN_DOCUMENT: &str = "own-document";

/// Every id above, for the test that each one has its row.
pub const ALL: [&str; 27] = [
    OWN_DOCUMENT,
    TINT_FIT,
    PLANCK,
    ISO_13916,
    D11_ZONE,
    EN_1011_2,
    HEAT_INPUT_PAGE,
    CE_ANSWERS,
    T85_TEXT,
    AWS_D1_1,
    D11_ANNEX,
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
