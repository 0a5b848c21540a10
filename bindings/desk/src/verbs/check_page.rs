//! `check-page`: the hook check for anyone's phone, in one file.

use slingseal_app::catalogue::desk as words;
use std::path::Path;
use std::process::ExitCode;

use slingseal_app::{AppError, CheckPageRequest};

use super::setting::Setting;
use crate::check_page::{filled, shell};
use crate::output::{print_json, told, write};
use crate::platform::{Secret, ask};

pub(crate) fn run(
    setting: &Setting,
    request: &CheckPageRequest,
    out: &Path,
    page: Option<&Path>,
) -> Result<ExitCode, AppError> {
    // Whether there is a page is told before the PIN is asked for.
    let shell = shell(page)?;
    let app = setting.app()?;
    let made = app.check_page(request, &ask(&app, Secret::Pin, false)?)?;
    write(out, filled(&shell, &made.bytes)?.as_bytes())?;
    if setting.json {
        print_json(&made);
    } else {
        println!("{}", words::SayFiveGroups.say(setting.language));
        println!("  {}", made.thumbprint);
        let said = words::CheckPageMade {
            leader: &made.leader,
            until: &made.until.dtg,
            held: words::CountWords { count: made.words }.saying(),
            authorities: made.authorities.join(", "),
        };
        println!("{}", said.say(setting.language));
        made.left_out.iter().for_each(|line| println!("  ! {line}"));
        told(&[out.to_owned()]);
    }
    Ok(ExitCode::SUCCESS)
}
