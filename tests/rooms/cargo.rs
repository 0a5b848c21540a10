//! What a command of cargo's names, held against the workspace's manifests.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

use crate::sources::rust_files;

/// Cargo's own commands that a document names. What is no cargo's own (`deny`, `mutants`) has flags of its own.
const COMMANDS: &[&str] =
    &["bench", "build", "check", "clippy", "doc", "fmt", "install", "metadata", "run", "test"];

/// Commands that are programs of others.
const OTHERS: &[&str] = &["deny", "mutants"];

/// Flags that stand alone.
const FLAGS: &[&str] = &[
    "--all",
    "--all-targets",
    "--check",
    "--lib",
    "--locked",
    "--no-default-features",
    "--no-deps",
    "--no-fail-fast",
    "--offline",
    "--quiet",
    "--release",
    "--timings",
    "--workspace",
];

/// Flags of a test's own program, behind `--`.
const TEST_FLAGS: &[&str] = &["--exact", "--ignored", "--nocapture", "--test-threads"];

/// What is built by itself: `tests`, `examples`, `benches` and `src/bin`, and how a manifest and a command call it.
const KINDS: &[(&str, &str, &str)] = &[
    ("--test", "test", "tests"),
    ("--bin", "bin", "src/bin"),
    ("--example", "example", "examples"),
    ("--bench", "bench", "benches"),
];

/// The packages of the workspace by name.
pub(crate) struct Workspace {
    root: PathBuf,
    packages: BTreeMap<String, Package>,
    profiles: BTreeSet<String>,
    /// What a command without `-p` means.
    default: String,
}

struct Package {
    folder: PathBuf,
    features: BTreeSet<String>,
    /// By the flag that names its kind and its name: where it begins.
    targets: BTreeMap<(&'static str, String), PathBuf>,
}

impl Workspace {
    pub(crate) fn read(root: &Path) -> Self {
        let manifest = table(root);
        let words = |key: &str| -> Vec<String> {
            let list = manifest["workspace"][key].as_array().expect("a list of folders");
            list.iter().map(|word| word.as_str().expect("a folder").to_owned()).collect()
        };
        let mut packages = BTreeMap::new();
        for member in words("members") {
            let folders = match member.strip_suffix("/*") {
                Some(above) => {
                    let entries = std::fs::read_dir(root.join(above)).expect("a folder can be read");
                    entries.map(|entry| entry.expect("an entry can be read").path()).collect()
                }
                None => vec![root.join(&member)],
            };
            for folder in folders.into_iter().filter(|folder| folder.join("Cargo.toml").exists()) {
                let (name, package) = Package::read(&folder);
                packages.insert(name, package);
            }
        }
        let [default] = words("default-members").try_into().expect("one default member");
        let (default, _) = Package::read(&root.join(default));
        let own = manifest["profile"].as_table().expect("profiles").keys().cloned();
        let profiles = own.chain(["dev", "release", "test", "bench"].map(str::to_owned)).collect();
        Workspace { root: root.to_owned(), packages, profiles, default }
    }

    /// Holds what stands behind `cargo`, or behind `cargo test` where a sentence leaves it out. Gives the folders whose sources
    /// such a command runs: they are to read its variables.
    pub(crate) fn check(&self, words: &[String]) -> Result<Vec<PathBuf>, String> {
        let at = words.iter().position(|word| word == "--").unwrap_or(words.len());
        let (words, behind) = (&words[..at], words.get(at + 1..).unwrap_or_default());
        let named = words.first().is_some_and(|word| !word.starts_with('-'));
        let command = if named { words[0].as_str() } else { "test" };
        let other = OTHERS.contains(&command);
        if !other && !COMMANDS.contains(&command) {
            return Err(format!("cargo has no {command}"));
        }
        let mut asked = words.iter().skip(usize::from(named)).map(String::as_str);
        let (mut package, mut filters, mut sources) = (None, Vec::new(), Vec::new());
        let mut targets = Vec::new();
        while let Some(word) = asked.next() {
            let mut value = || asked.next().ok_or_else(|| format!("{word} names nothing"));
            match word {
                "-p" | "--package" => {
                    let name = value()?;
                    let found =
                        self.packages.get(name).ok_or_else(|| format!("there is no package {name}"))?;
                    package = Some(found);
                }
                "--features" => {
                    let (name, of) = (value()?, package);
                    let known = match of {
                        Some(package) => package.features.contains(name),
                        // In a sentence the package is told beside it.
                        None if !named => self.packages.values().any(|of| of.features.contains(name)),
                        None => self.packages[&self.default].features.contains(name),
                    };
                    if !known {
                        return Err(format!("there is no feature {name}"));
                    }
                }
                "--profile" => {
                    let name = value()?;
                    if !self.profiles.contains(name) {
                        return Err(format!("there is no profile {name}"));
                    }
                }
                "--path" | "--config" => {
                    let path = value()?;
                    if !self.root.join(path).exists() {
                        return Err(format!("there is no {path}"));
                    }
                }
                flag if KINDS.iter().any(|(kind, ..)| *kind == flag) => targets.push((flag, value()?)),
                flag if FLAGS.contains(&flag) => {}
                // A tool of others has flags that only it knows.
                _ if other => {}
                flag if flag.starts_with('-') => return Err(format!("cargo {command} has no {flag}")),
                filter => filters.push(filter),
            }
        }
        let within = match package {
            Some(package) => package,
            // In a sentence about our tests.
            None if !named => &self.packages["slingseal-tests"],
            None => &self.packages[&self.default],
        };
        for (kind, name) in targets {
            let found = within.targets.iter().find(|((of, known), _)| *of == kind && known == name);
            let (_, path) = found.ok_or_else(|| format!("there is no {kind} {name}"))?;
            let own = if path.ends_with("main.rs") { path.parent() } else { None };
            sources.push(own.unwrap_or(path).to_owned());
        }
        if sources.is_empty() {
            sources.push(within.folder.clone());
        }
        if matches!(command, "test" | "bench") {
            // Cargo itself takes one filter, the test's program behind `--` as many as one likes.
            if let [_, more, ..] = filters.as_slice() {
                return Err(format!("cargo takes one filter, and not {more} too"));
            }
            let (flags, more): (Vec<&str>, Vec<&str>) =
                behind.iter().map(String::as_str).partition(|word| word.starts_with('-'));
            if let Some(flag) =
                flags.iter().find(|flag| !TEST_FLAGS.contains(&flag.split('=').next().unwrap_or(flag)))
            {
                return Err(format!("a test has no {flag}"));
            }
            filters.extend(more);
            let unknown = |filter: &&&str| !sources.iter().any(|path| names_a_test(path, filter));
            if let Some(filter) = filters.iter().find(unknown) {
                return Err(format!("no test is called {filter}"));
            }
        } else if let (false, Some(word)) = (other, filters.first()) {
            return Err(format!("cargo {command} takes no {word}"));
        }
        if command == "run" && package.is_some() {
            known_to(&sources, behind)?;
        }
        // What the tests share reads variables, too.
        sources.push(within.folder.join("support"));
        Ok(sources)
    }
}

/// Whether each plain word behind `--` stands in the sources of what is run.
fn known_to(sources: &[PathBuf], behind: &[String]) -> Result<(), String> {
    let plain = |word: &&String| word.bytes().all(|byte| byte.is_ascii_lowercase());
    let texts: Vec<String> = sources.iter().flat_map(|path| texts(path)).collect();
    match behind
        .iter()
        .filter(plain)
        .find(|word| !texts.iter().any(|text| text.contains(&format!("\"{word}\""))))
    {
        Some(word) => Err(format!("the program knows no {word}")),
        None => Ok(()),
    }
}

/// Whether a function, a module or a file below is called so in part, as cargo's filter asks.
fn names_a_test(path: &Path, filter: &str) -> bool {
    let last = filter.rsplit("::").next().unwrap_or(filter);
    let files = if path.is_dir() { rust_files(path) } else { vec![path.to_owned()] };
    files.iter().any(|file| {
        let stem = file.file_stem().unwrap_or_default().to_string_lossy().into_owned();
        let text = std::fs::read_to_string(file).expect("a source can be read");
        let mut named = text.lines().filter_map(|line| {
            let line = line.trim_start();
            line.strip_prefix("fn ").or_else(|| line.strip_prefix("mod "))?.split(['(', ' ', ';', '{']).next()
        });
        stem.contains(last) || named.any(|name| name.contains(last))
    })
}

fn texts(path: &Path) -> Vec<String> {
    let files = if path.is_dir() { rust_files(path) } else { vec![path.to_owned()] };
    files.iter().map(|file| std::fs::read_to_string(file).expect("a source can be read")).collect()
}

fn table(folder: &Path) -> toml::Table {
    let text = std::fs::read_to_string(folder.join("Cargo.toml")).expect("a manifest can be read");
    text.parse().expect("a manifest is TOML")
}

impl Package {
    fn read(folder: &Path) -> (String, Self) {
        let manifest = table(folder);
        let name = manifest["package"]["name"].as_str().expect("a name").to_owned();
        let features = manifest.get("features").and_then(toml::Value::as_table);
        let features = features.into_iter().flat_map(|table| table.keys().cloned()).collect();
        let mut targets = BTreeMap::new();
        for (flag, key, place) in KINDS {
            for path in found_by_itself(&folder.join(place)) {
                let own =
                    if path.ends_with("main.rs") { path.parent().expect("a folder") } else { path.as_path() };
                let stem = own.file_stem().expect("a name").to_string_lossy().into_owned();
                targets.insert((*flag, stem), path);
            }
            for told in manifest.get(*key).and_then(toml::Value::as_array).into_iter().flatten() {
                let name = told["name"].as_str().expect("a name").to_owned();
                if let Some(path) = told.get("path").and_then(toml::Value::as_str) {
                    targets.insert((*flag, name), folder.join(path));
                }
            }
        }
        if folder.join("src/main.rs").exists() {
            targets.insert(("--bin", name.clone()), folder.join("src/main.rs"));
        }
        (name, Package { folder: folder.to_owned(), features, targets })
    }
}

/// What cargo takes for a target without being told: a file, or a folder with a `main.rs`.
fn found_by_itself(folder: &Path) -> Vec<PathBuf> {
    let Ok(entries) = std::fs::read_dir(folder) else { return Vec::new() };
    let paths = entries.map(|entry| entry.expect("an entry can be read").path());
    paths
        .filter_map(|path| match path.is_dir() {
            true => Some(path.join("main.rs")).filter(|main| main.exists()),
            false => path.extension().is_some_and(|ending| ending == "rs").then_some(path),
        })
        .collect()
}
