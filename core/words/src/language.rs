/// The language that a person reads. What is signed has none.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum Language {
    /// English.
    #[default]
    English,
    /// Spanish.
    Spanish,
}

impl Language {
    /// The ISO 639-1 code.
    pub fn code(self) -> &'static str {
        self.pick("en", "es")
    }

    /// The language of a code or of a locale such as `es-MX`; English for every other.
    pub fn of_locale(locale: &str) -> Self {
        let code = locale.split(['-', '_']).next().unwrap_or_default();
        if code.eq_ignore_ascii_case("es") { Self::Spanish } else { Self::English }
    }

    /// One of two texts.
    pub fn pick<T>(self, english: T, spanish: T) -> T {
        match self {
            Self::English => english,
            Self::Spanish => spanish,
        }
    }
}
