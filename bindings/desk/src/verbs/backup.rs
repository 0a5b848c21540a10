//! `backup` and `restore`: a home in one file, and a home that begins from one.

use std::path::Path;
use std::process::ExitCode;

use slingseal_app::catalogue::desk as words;
use slingseal_app::{AppError, restore_home};

use super::setting::Setting;
use crate::console::Shown;
use crate::files::{close_file, write_whole};
use crate::output::{print_json, told};
use crate::platform;

pub(crate) fn backup(setting: &Setting, out: &Path) -> Result<ExitCode, AppError> {
    let (home, app) = (setting.home()?, setting.app()?);
    // In the home, which is closed to others.
    let scratch = home.join("backup.part");
    let made = write_whole(out, |file| app.backup(&scratch, file))?;
    close_file(out);
    if setting.json {
        print_json(&made);
        return Ok(ExitCode::SUCCESS);
    }
    let said = words::BackupMade {
        records: words::CountRecords { count: made.records }.saying(),
        entries: words::CountEntries { count: made.entries }.saying(),
        device: &made.device,
        digest: &made.digest,
    };
    println!("{}", said.say(setting.language));
    println!("{}", words::BackupKeepSafe.say(setting.language));
    told(&[out.to_owned()]);
    Ok(ExitCode::SUCCESS)
}

pub(crate) fn restore(setting: &Setting, from: &Path) -> Result<ExitCode, AppError> {
    let home = setting.home()?;
    platform::new_home(&home)?;
    let (made, secret) = restore_home(from, &home, &platform::outside_without_secret(setting.language))?;
    platform::keep_secret(&home, &secret)?;
    if setting.json {
        print_json(&made);
        return Ok(ExitCode::SUCCESS);
    }
    let entries = words::CountEntries { count: made.entries }.saying();
    let (device, before, digest) = (&made.device, &made.before, &made.digest);
    let said = words::HomeRestored { home: home.shown(), device, entries, before, digest };
    println!("{}", said.say(setting.language));
    made.notes.iter().for_each(|note| println!("  ! {note}"));
    Ok(ExitCode::SUCCESS)
}
