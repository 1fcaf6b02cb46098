//! How hard may the heat-affected zone become?

use super::error::{Domain, check_composition};
use super::{Checked, Ends, EngineError, Outcome, Step, Unit};
use crate::engine::carbon_equivalent::ce_wes;
use crate::reference::Element::{B, C, Cr, Cu, Mn, Mo, N, Nb, Ni, Si, V};
use crate::reference::{Composition, Method, Methods};

const COOLING: Domain = Domain::new("t8/5", 0.01, 10_000.0);

/// The constants of a steel in Yurioka's equation of 1987.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Yurioka1987 {
    /// Hardness of full martensite, HV.
    pub martensite_hv: f64,
    /// Hardness with no martensite, HV.
    pub bainite_hv: f64,
    /// Longest cooling time to full martensite, s.
    pub martensite_s: f64,
    /// Shortest cooling time to no martensite, s.
    pub bainite_s: f64,
}

impl Yurioka1987 {
    /// The constants of a composition:
    /// `HM = 884 C (1 - 0.3 C²) + 294`; `HB = 145 + 130 tanh(2.65 CEII - 0.69)`;
    /// `tM = exp(10.6 CEI - 4.8)`; `tB = exp(6.2 CEIII + 0.74)`, with
    /// `CEI = Cp + Si/24 + Mn/6 + Cu/15 + Ni/12 + Cr (1 - 0.16 sqrt Cr)/8 + Mo/4 + dH`,
    /// `CEII = C + Si/24 + Mn/5 + Cu/10 + Ni/18 + Cr/5 + Mo/2.5 + V/5 + Nb/3`,
    /// `CEIII = Cp + Mn/3.6 + Cu/20 + Ni/9 + Cr/5 + Mo/4`, `Cp = C` up to 0.3, else `C/6 + 0.25`.
    #[must_use]
    pub fn of(steel: &Composition) -> Self {
        let get = |element| steel.get(element);
        let carbon = get(C);
        let cp = if carbon <= 0.3 { carbon } else { carbon / 6.0 + 0.25 };
        let ce_1 = cp
            + get(Si) / 24.0
            + get(Mn) / 6.0
            + get(Cu) / 15.0
            + get(Ni) / 12.0
            + get(Cr) * (1.0 - 0.16 * get(Cr).sqrt()) / 8.0
            + get(Mo) / 4.0
            + boron_term(get(B), get(N));
        let ce_2 = carbon
            + get(Si) / 24.0
            + get(Mn) / 5.0
            + get(Cu) / 10.0
            + get(Ni) / 18.0
            + get(Cr) / 5.0
            + get(Mo) / 2.5
            + get(V) / 5.0
            + get(Nb) / 3.0;
        let ce_3 = cp + get(Mn) / 3.6 + get(Cu) / 20.0 + get(Ni) / 9.0 + get(Cr) / 5.0 + get(Mo) / 4.0;
        Self {
            martensite_hv: 884.0 * carbon * (1.0 - 0.3 * carbon * carbon) + 294.0,
            bainite_hv: 145.0 + 130.0 * (2.65 * ce_2 - 0.69).tanh(),
            martensite_s: (10.6 * ce_1 - 4.8).exp(),
            bainite_s: (6.2 * ce_3 + 0.74).exp(),
        }
    }

    /// `x = 4 log(t/tM) / log(tB/tM) - 2`.
    #[must_use]
    pub fn x(&self, t85_s: f64) -> f64 {
        4.0 * (t85_s / self.martensite_s).ln() / (self.bainite_s / self.martensite_s).ln() - 2.0
    }

    /// `HV = (HM + HB)/2 - (HM - HB)/2.2 atan(x)`, not above the hardness of full martensite.
    ///
    /// The arc tangent would pass HM by a third of the span for a cooling much faster than
    /// tM, where the steel simply is martensite.
    #[must_use]
    pub fn hv(&self, t85_s: f64) -> f64 {
        let (hm, hb) = (self.martensite_hv, self.bainite_hv);
        let raw = f64::midpoint(hm, hb) - (hm - hb) / 2.2 * self.x(t85_s).atan();
        if hm > hb { raw.min(hm) } else { raw }
    }
}

/// Boron's part of CEI: 0 at 1 ppm rising to `0.09 (0.02 - N)/0.02` at 4 ppm.
fn boron_term(boron_percent: f64, nitrogen_percent: f64) -> f64 {
    let rise = (0.03 * (boron_percent * 1e4 - 1.0)).clamp(0.0, 0.09);
    rise * ((0.02 - nitrogen_percent) / 0.02).max(0.0)
}

/// Hardness by Düren: `HV = 2019 [C (1 - 0.5 log t) + 0.3 K] + 66 (1 - 0.8 log t)`, kept
/// between `350 (C + K) + 101` and `802 C + 305`, with
/// `K = Si/11 + Mn/8 + Cu/9 + Cr/5 + Ni/17 + Mo/6 + V/3`; t in s, log to base 10.
#[must_use]
pub fn duren_hv(steel: &Composition, t85_s: f64) -> f64 {
    let get = |element| steel.get(element);
    let carbon = get(C);
    let k = get(Si) / 11.0
        + get(Mn) / 8.0
        + get(Cu) / 9.0
        + get(Cr) / 5.0
        + get(Ni) / 17.0
        + get(Mo) / 6.0
        + get(V) / 3.0;
    let log = t85_s.log10();
    let raw = 2019.0 * (carbon * (1.0 - 0.5 * log) + 0.3 * k) + 66.0 * (1.0 - 0.8 * log);
    let (martensite, bainite) = (802.0 * carbon + 305.0, 350.0 * (carbon + k) + 101.0);
    raw.max(bainite).min(martensite)
}

/// Hardness of martensite by Maynier:
/// `HV = 127 + 949 C + 27 Si + 11 Mn + 8 Ni + 16 Cr + 21 log10(Vr)`; Vr at 700 °C in °C/h.
#[must_use]
pub fn maynier_martensite_hv(steel: &Composition, cooling_c_per_h: f64) -> f64 {
    127.0
        + 949.0 * steel.get(C)
        + 27.0 * steel.get(Si)
        + 11.0 * steel.get(Mn)
        + 8.0 * steel.get(Ni)
        + 16.0 * steel.get(Cr)
        + 21.0 * cooling_c_per_h.log10()
}

/// Highest hardness by WES: `Hmax = 666 CE(WES) + 40`, within 40 HV either way.
#[must_use]
pub fn wes_hmax_hv(steel: &Composition) -> f64 {
    666.0 * ce_wes(steel) + 40.0
}

/// Mean cooling rate from 800 to 500 °C in °C/h: what Maynier's equation is fed with.
#[must_use]
pub fn mean_rate_c_per_h(t85_s: f64) -> f64 {
    300.0 * 3600.0 / t85_s
}

/// The hardness estimates of a composition and a cooling time: `hardness-yurioka`,
/// `hardness-duren`, `hardness-martensite`, `hardness-wes`, HV. All from memory.
///
/// Yurioka's holds for C up to 0.8 %, N up to 0.01 % and a time from tM to tB.
///
/// # Errors
/// A composition or a time that is not a number, negative, or that no weld has;
/// `NoAnswer` (`hardness-no-order`) where tB is not above tM.
pub fn hardness(methods: &Methods, steel: &Composition, t85_s: f64) -> Result<[Outcome; 4], EngineError> {
    check_composition(steel)?;
    COOLING.check(t85_s)?;
    Domain::new("C", 0.0, 2.0).check(steel.get(C))?;
    let yurioka = Yurioka1987::of(steel);
    if yurioka.bainite_s.partial_cmp(&yurioka.martensite_s) != Some(std::cmp::Ordering::Greater)
        || !yurioka.bainite_s.is_finite()
    {
        return Err(EngineError::NoAnswer { reason: "hardness-no-order" });
    }
    let rate = mean_rate_c_per_h(t85_s);
    let wes = wes_hmax_hv(steel);
    let hv = Unit::Vickers;
    let row = methods.row(Method::HvYurioka);
    let time = Checked::between("t8/5", t85_s, Unit::Second, yurioka.martensite_s, yurioka.bainite_s);
    // An estimate is a span: measured welds lie so far about it at best.
    let answer = |method, name, value| {
        let outcome = Outcome::new(method, value, hv).named(name);
        match &methods.row(method).scatter {
            Some(scatter) => {
                let (low, high) = scatter.by.about(value);
                outcome.spread(low, high)
            }
            None => outcome,
        }
    };
    Ok([
        answer(Method::HvYurioka, "hardness-yurioka", yurioka.hv(t85_s))
            .from_inputs(vec![
                Checked::of(row, "C", steel.get(C), Ends::Drawn),
                Checked::of(row, "N", steel.get(N), Ends::Drawn),
                time,
            ])
            .worked(vec![
                Step::new("HM", yurioka.martensite_hv, hv),
                Step::new("HB", yurioka.bainite_hv, hv),
                Step::new("tM", yurioka.martensite_s, Unit::Second),
                Step::new("tB", yurioka.bainite_s, Unit::Second),
                Step::new("x", yurioka.x(t85_s), Unit::One),
            ]),
        answer(Method::HvDuren, "hardness-duren", duren_hv(steel, t85_s)),
        answer(Method::HvMaynier, "hardness-martensite", maynier_martensite_hv(steel, rate))
            .worked(vec![Step::new("Vr", rate, Unit::KelvinPerHour)]),
        answer(Method::HvWes, "hardness-wes", wes).spread(wes - 40.0, wes + 40.0),
    ])
}
