//! What a command of Maven's names, held against its `pom.xml`.

use std::path::Path;

use crate::sources::files_of;

/// The phases of the default and the clean life cycle that people type.
const PHASES: &[&str] =
    &["clean", "validate", "compile", "test-compile", "test", "package", "verify", "install"];

/// Flags that stand alone.
const FLAGS: &[&str] = &["--batch-mode", "--no-transfer-progress", "--offline", "-o", "-q", "-B"];

/// Whether everything behind `mvn` is there.
pub(crate) fn check(root: &Path, arguments: &[String]) -> Result<(), String> {
    let mut words = arguments.iter();
    let (mut folder, mut asked) = (".", Vec::new());
    while let Some(word) = words.next() {
        match word.as_str() {
            "-f" => folder = words.next().map(String::as_str).ok_or("-f names nothing")?,
            flag if FLAGS.contains(&flag) => {}
            other => asked.push(other),
        }
    }
    let folder = root.join(folder);
    let pom = std::fs::read_to_string(folder.join("pom.xml"))
        .map_err(|_| format!("there is no pom.xml in {}", folder.display()))?;
    for word in asked {
        let known = if let Some(profile) = word.strip_prefix("-P") {
            pom.contains(&format!("<id>{profile}</id>"))
        } else if let Some(classes) = word.strip_prefix("-Dtest=") {
            let names: Vec<String> = files_of(&folder.join("src/test"), "kt")
                .iter()
                .filter_map(|path| Some(path.file_stem()?.to_string_lossy().into_owned()))
                .collect();
            classes
                .split([',', '#'])
                .step_by(if classes.contains('#') { 2 } else { 1 })
                .all(|class| names.iter().any(|name| name == class))
        } else if let Some(property) = word.strip_prefix("-D") {
            pom.contains(&format!("${{{}}}", property.split('=').next().unwrap_or_default()))
        } else if let Some((prefix, goal)) = word.split_once(':') {
            !goal.is_empty() && pom.contains(&format!("<artifactId>{prefix}-maven-plugin</artifactId>"))
        } else {
            PHASES.contains(&word)
        };
        if !known {
            return Err(format!("{word} is nothing that {} knows", folder.join("pom.xml").display()));
        }
    }
    Ok(())
}
