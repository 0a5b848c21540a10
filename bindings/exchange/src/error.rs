use slingseal_app::AppError;
use slingseal_app::catalogue::{Saying, exchange as words};
use slingseal_app::visibly;

/// Why a server was not pushed to or pulled from, by what is to be done next. What was done until then stays done.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ExchangeError {
    /// The address cannot be used.
    Address(Saying),
    /// Nobody answers there, or the line broke: try again, nothing is lost.
    Unreachable {
        /// What the system says of it.
        why: String,
    },
    /// The server's certificate is not signed by whom was named.
    Certificate {
        /// What is wrong with it.
        why: String,
    },
    /// It refuses this login, or gives it too few rights.
    Login {
        /// What the server says.
        why: String,
    },
    /// There is no common place in that database yet.
    NotSetUp,
    /// A newer program set it up.
    TooNew {
        /// The server's step.
        found: i32,
    },
    /// It answers too slowly, or not at all.
    Slow,
    /// It does not keep to what it should: more than was asked for, or what no server of ours says.
    Strange {
        /// What.
        what: Saying,
    },
    /// Much of what it gives is no good, and little is. The next pull goes on behind it.
    InVain {
        /// How many words.
        count: u64,
    },
    /// It could not do what was asked.
    Server {
        /// What it says.
        why: String,
    },
    /// This home could not take it, or give it.
    Home(AppError),
}

impl ExchangeError {
    /// One line: what is wrong; what to do.
    pub fn saying(&self) -> Saying {
        match self {
            Self::Address(saying) => saying.clone(),
            Self::Unreachable { why } => words::ExchangeUnreachable { why }.into(),
            Self::Certificate { why } => words::ExchangeCertificate { why }.into(),
            Self::Login { why } => words::ExchangeLogin { why }.into(),
            Self::NotSetUp => words::ExchangeNotSetUp.into(),
            Self::TooNew { found } => {
                words::ExchangeTooNew { found: i64::from(*found), known: i64::from(crate::KNOWN_STEP) }.into()
            }
            Self::Slow => words::ExchangeSlow.into(),
            Self::Strange { what } => words::ExchangeStrange { what: what.clone() }.into(),
            Self::InVain { count } => words::ExchangeInVain { count: *count }.into(),
            Self::Server { why } => words::ExchangeServer { why }.into(),
            Self::Home(error) => error.saying().clone(),
        }
    }

    /// Whether it is worth trying again by itself: the line, and not what was said over it.
    pub fn may_pass(&self) -> bool {
        matches!(self, Self::Unreachable { .. } | Self::Slow | Self::Server { .. })
    }

    pub(crate) fn strange(what: impl Into<Saying>) -> Self {
        Self::Strange { what: what.into() }
    }
}

impl std::fmt::Display for ExchangeError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        self.saying().fmt(f)
    }
}

impl std::error::Error for ExchangeError {}

impl From<AppError> for ExchangeError {
    fn from(error: AppError) -> Self {
        Self::Home(error)
    }
}

impl From<ExchangeError> for AppError {
    fn from(error: ExchangeError) -> Self {
        let message = error.saying();
        match error {
            ExchangeError::Home(error) => error,
            ExchangeError::Address(_) => Self::BadInput { message },
            ExchangeError::TooNew { .. } => Self::TooNew { message },
            ExchangeError::NotSetUp => Self::NotFound { message },
            _ => Self::Refused { message },
        }
    }
}

impl From<tokio_postgres::Error> for ExchangeError {
    fn from(error: tokio_postgres::Error) -> Self {
        let Some(said) = error.as_db_error() else {
            return broken(&error);
        };
        let (why, code) = (one_line(said.message()), said.code().code());
        match code.get(..2).unwrap_or_default() {
            _ if matches!(code, "42P01" | "3F000" | "3D000") => Self::NotSetUp,
            _ if matches!(code, "42501" | "25006") => Self::Login { why },
            "28" => Self::Login { why },
            // the server goes down, or is not up yet
            "57" | "08" | "53" => Self::Unreachable { why },
            _ => Self::Server { why },
        }
    }
}

/// The line broke, or what came over it cannot be read.
fn broken(error: &tokio_postgres::Error) -> ExchangeError {
    let mut cause: Option<&(dyn std::error::Error + 'static)> = Some(error);
    while let Some(one) = cause {
        if let Some(io) = one.downcast_ref::<std::io::Error>() {
            return of_io(io);
        }
        cause = one.source();
    }
    if error.is_closed() {
        return ExchangeError::Unreachable { why: one_line(&error.to_string()) };
    }
    ExchangeError::strange(words::ExchangeCannotBeRead)
}

pub(crate) fn of_io(error: &std::io::Error) -> ExchangeError {
    if let Some(inner) = error.get_ref() {
        if let Some(strange) = inner.downcast_ref::<ExchangeError>() {
            return strange.clone();
        }
        if let Some(tls) = inner.downcast_ref::<rustls::Error>() {
            return ExchangeError::Certificate { why: one_line(&tls.to_string()) };
        }
    }
    if matches!(error.kind(), std::io::ErrorKind::InvalidData | std::io::ErrorKind::InvalidInput) {
        return ExchangeError::strange(words::ExchangeCannotBeRead);
    }
    let text = error.to_string();
    ExchangeError::Unreachable { why: one_line(text.split(" (os error").next().unwrap_or_default()) }
}

/// A server's own words: foreign, so made harmless and short.
fn one_line(text: &str) -> String {
    let first: String = text.lines().next().unwrap_or_default().chars().take(200).collect();
    visibly(&first).to_string()
}
