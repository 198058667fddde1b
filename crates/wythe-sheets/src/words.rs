//! Words in the language of the reader: message catalogues in Fluent, one file a language, built into the program.
//!
//! English is the measure: every other catalogue has the same messages with the same variables, and every message is
//! used; tests hold that. Names, products and inspections come from the plans as their author wrote them.

use fluent_bundle::{FluentArgs, FluentBundle, FluentResource};
use unic_langid::LanguageIdentifier;
use unic_langid::subtags::Language as Tag;

/// A language of the sheets.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default, Hash)]
pub enum Language {
    /// English of the United States.
    #[default]
    English,
    /// Spanish as crews in the United States speak it.
    Spanish,
}

impl Language {
    /// All.
    pub const ALL: [Language; 2] = [Language::English, Language::Spanish];

    /// Its tag: `en`, `es`.
    pub const fn tag(self) -> &'static str {
        match self {
            Language::English => "en",
            Language::Spanish => "es",
        }
    }

    /// The language of a tag.
    pub fn of_tag(tag: &str) -> Option<Language> {
        Language::ALL.into_iter().find(|l| l.tag() == tag)
    }

    /// Its catalogue.
    pub(crate) const fn catalog(self) -> &'static str {
        match self {
            Language::English => include_str!("../catalog/en.ftl"),
            Language::Spanish => include_str!("../catalog/es.ftl"),
        }
    }
}

/// The messages of a language.
pub struct Words {
    language: Language,
    bundle: FluentBundle<FluentResource>,
}

impl std::fmt::Debug for Words {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Words").field("language", &self.language).finish_non_exhaustive()
    }
}

impl Words {
    /// The messages of a language.
    pub fn new(language: Language) -> Words {
        // What a catalogue gets wrong in one message leaves the others; tests find it.
        let resource = match FluentResource::try_new(language.catalog().to_owned()) {
            Ok(resource) | Err((resource, _)) => resource,
        };
        let tag = Tag::from_bytes(language.tag().as_bytes()).unwrap_or_default();
        let mut bundle = FluentBundle::new(vec![LanguageIdentifier::from_parts(tag, None, None, &[])]);
        // Names that read from right to left are set apart where they are cleaned; marks round each would show up on
        // terminals.
        bundle.set_use_isolating(false);
        let _ = bundle.add_resource(resource);
        Words { language, bundle }
    }

    /// The language.
    pub fn language(&self) -> Language {
        self.language
    }

    /// A message with its variables filled in. A message that is not there stands as its key.
    pub(crate) fn format(&self, key: &str, args: &FluentArgs<'_>) -> String {
        let Some(pattern) = self.bundle.get_message(key).and_then(|m| m.value()) else { return key.to_owned() };
        let mut errors = Vec::new();
        let text = self.bundle.format_pattern(pattern, Some(args), &mut errors);
        debug_assert!(errors.is_empty(), "{key}: {errors:?}");
        text.into_owned()
    }
}

/// A message: `say!(words, "key", name = value, …)`. The key is written out in full, so that a test can find it.
macro_rules! say {
    ($words:expr, $key:literal $(, $name:ident = $value:expr)* $(,)?) => {{
        #[allow(unused_mut, reason = "a message may have no variables")]
        let mut args = ::fluent_bundle::FluentArgs::new();
        $( args.set(stringify!($name), $value); )*
        $words.format($key, &args)
    }};
}
pub(crate) use say;
