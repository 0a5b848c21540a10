//! `serve`: the leader's page.

use std::net::IpAddr;
use std::path::PathBuf;
use std::process::ExitCode;

use slingseal_app::AppError;

use super::setting::Setting;
use crate::serve::{self, Place};

pub(crate) fn run(
    setting: &Setting,
    port: u16,
    open: Option<IpAddr>,
    tls: bool,
    page: Option<PathBuf>,
) -> Result<ExitCode, AppError> {
    serve::run(setting.app()?, &Place { port, open, tls, home: setting.home()?, page }, setting.json)?;
    Ok(ExitCode::SUCCESS)
}
