/// The language that a person reads. What is signed has none.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Language {
    /// English.
    #[default]
    English,
    /// Spanish.
    Spanish,
}

impl Language {
    /// The language of a tag such as `es-MX`; English where it is not one of ours.
    pub fn of(tag: &str) -> Self {
        if tag.to_ascii_lowercase().starts_with("es") { Self::Spanish } else { Self::English }
    }

    /// One of two texts.
    pub fn pick<T>(self, english: T, spanish: T) -> T {
        match self {
            Self::English => english,
            Self::Spanish => spanish,
        }
    }
}
