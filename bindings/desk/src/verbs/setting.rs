//! What every verb stands on: the home, the language, and who acts.

use slingseal_app::catalogue::desk as words;
use slingseal_app::{App, AppError, Language, Role};

use crate::platform;

/// What a verb needs of the command line.
pub(crate) struct Setting {
    pub(super) home: Option<std::path::PathBuf>,
    pub(crate) json: bool,
    pub(crate) language: Language,
    pub(super) acting: Option<String>,
}

impl Setting {
    /// The home that was named, or the usual one.
    pub(crate) fn home(&self) -> Result<std::path::PathBuf, AppError> {
        self.home.clone().map_or_else(platform::default_home, Ok)
    }

    /// Opens the home and says what it met.
    pub(crate) fn app(&self) -> Result<App, AppError> {
        let app = self.quiet_app()?;
        for notice in app.start()?.notices.into_iter().chain(app.running_out()?) {
            eprintln!("slingseal: {notice}");
        }
        Ok(app)
    }

    /// The same for the full screen, which tells by itself what the opening met.
    pub(crate) fn quiet_app(&self) -> Result<App, AppError> {
        let app = platform::open(&self.home()?, self.language)?;
        app.act_as(self.acting.as_deref())?;
        Ok(app)
    }
}

/// Says under whose credential a verb signs, where more than one would do.
pub(crate) fn tell_who_signs(app: &App, role: Option<Role>) -> Result<(), AppError> {
    if let Some(signs) = app.signs_as(role)?.filter(|signs| !signs.others.is_empty()) {
        let (holder, authority) = (&signs.credential.holder, &signs.credential.authority);
        let others = signs.others.join(&format!(" {} ", words::Or.say(app.spoken())));
        eprintln!("slingseal: {}", words::SignsAs { holder, authority, others }.say(app.spoken()));
    }
    Ok(())
}
