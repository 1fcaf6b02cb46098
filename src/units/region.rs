//! Which units a person most likely works in, by the region that the system is set to: only a guess, until they choose.

use super::system::Units;

impl Units {
    /// The units of a region, as a locale names it (`en-US`, `de_DE.UTF-8`); °C and mm where it names none.
    ///
    /// By the measurement system data of the Unicode locale data markup language (UTS #35): US units in LR, MM and US,
    /// but metric temperatures in LR and MM; US temperatures beside metric lengths in BS, BZ, KY, PR and PW.
    #[must_use]
    pub fn of_region(locale: &str) -> Self {
        match region(locale).as_deref() {
            Some("US") => Self::F_IN,
            Some("BS" | "BZ" | "KY" | "PR" | "PW") => Self::F_MM,
            Some("LR" | "MM") => Self::C_IN,
            _ => Self::C_MM,
        }
    }

    /// The units by the variables of a POSIX system: the first of them that is set decides, the one for units before
    /// the one for everything.
    #[must_use]
    pub fn of_variables(variable: impl Fn(&str) -> Option<String>) -> Self {
        let set = ["LC_ALL", "LC_MEASUREMENT", "LANG"].into_iter().filter_map(variable);
        Self::of_region(&set.into_iter().find(|locale| !locale.is_empty()).unwrap_or_default())
    }

    /// The units that the person's system is set to.
    #[must_use]
    pub fn of_system() -> Self {
        if cfg!(all(unix, not(any(target_os = "android", target_vendor = "apple")))) {
            return Self::of_variables(|name| std::env::var(name).ok());
        }
        Self::of_region(&sys_locale::get_locale().unwrap_or_default())
    }
}

/// The region of a locale: the two letters behind the language, and behind a script where there is one.
fn region(locale: &str) -> Option<String> {
    let tag = locale.split(['.', '@']).next().unwrap_or_default();
    // What follows a single letter is no part of the name.
    let mut parts = tag.split(['-', '_']).skip(1).take_while(|part| part.len() > 1);
    let found = parts.find(|part| part.len() == 2 && part.bytes().all(|letter| letter.is_ascii_alphabetic()));
    found.map(str::to_ascii_uppercase)
}
