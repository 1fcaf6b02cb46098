//! Every word that a person reads, from Fluent: one `data/LANGUAGE.ftl` per language.

mod figures;

use std::sync::Arc;

use fluent::{FluentArgs, FluentBundle, FluentResource, FluentValue};
use unic_langid::LanguageIdentifier;

pub use figures::Scales;
use figures::SharedScales;
pub(crate) use figures::whole_fahrenheit;

/// English messages; every other language falls back on them.
const ENGLISH: &str = include_str!("../../data/en.ftl");

/// The messages of one language.
pub struct Words {
    bundle: FluentBundle<FluentResource>,
    scales: Arc<SharedScales>,
}

impl Words {
    /// The English messages.
    ///
    /// # Panics
    /// Never: the check of the dataset parses the embedded file.
    #[must_use]
    pub fn english() -> Self {
        let language: LanguageIdentifier = "en".parse().expect("`en` is a language tag");
        let mut bundle = FluentBundle::new(vec![language]);
        // Isolation marks break tabular figures and copied text; all insertions are left-to-right here.
        bundle.set_use_isolating(false);
        let resource = match FluentResource::try_new(ENGLISH.to_owned()) {
            Ok(resource) | Err((resource, _)) => resource,
        };
        bundle.add_resource_overriding(resource);
        let scales = Arc::<SharedScales>::default();
        figures::add_to(&mut bundle, &scales);
        Self { bundle, scales }
    }

    /// From now on sentences write their figures so. At first in °C and mm.
    pub fn write_in(&self, scales: Scales) {
        self.scales.set(scales);
    }

    /// The message of a key, or of `key.attribute`. An unknown key comes back as it
    /// is, so that it is seen on the screen and in a test.
    #[must_use]
    pub fn get(&self, key: &str) -> String {
        self.with(key, &[])
    }

    /// The message of a key with values put in.
    #[must_use]
    pub fn with(&self, key: &str, values: &[(&str, &str)]) -> String {
        let (id, attribute) =
            key.split_once('.').map_or((key, None), |(id, attribute)| (id, Some(attribute)));
        let pattern = self.bundle.get_message(id).and_then(|message| match attribute {
            None => message.value(),
            Some(name) => message.get_attribute(name).map(|found| found.value()),
        });
        let Some(pattern) = pattern else { return key.to_owned() };
        let mut args = FluentArgs::new();
        for (name, value) in values {
            args.set(*name, FluentValue::from(*value));
        }
        let mut errors = Vec::new();
        self.bundle.format_pattern(pattern, Some(&args), &mut errors).into_owned()
    }

    /// Is there such a message, or such an attribute?
    #[must_use]
    pub fn has(&self, key: &str) -> bool {
        let (id, attribute) =
            key.split_once('.').map_or((key, None), |(id, attribute)| (id, Some(attribute)));
        self.bundle.get_message(id).is_some_and(|message| match attribute {
            None => message.value().is_some(),
            Some(name) => message.get_attribute(name).is_some(),
        })
    }
}
