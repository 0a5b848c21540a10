//! A rigged load as the file that it would be read from.

use std::fmt::Write as _;

use slingseal_words::{Name, Quantity};

use super::load::{Rating, Reach, Reeved};
use super::{Chain, RiggedLoad};

/// The load as TOML; read again it is the same load.
pub fn write(load: &RiggedLoad) -> String {
    let mut out = String::new();
    // Writing to a `String` cannot fail.
    let _ = all(&mut out, load);
    out
}

fn all(out: &mut String, load: &RiggedLoad) -> std::fmt::Result {
    if let Some(rule) = load.rule {
        writeln!(out, "rule = {}\n", text(rule.as_str()))?;
    }
    writeln!(out, "[load]\nmass = {}\ncentre = {}", text(load.mass), place(&load.centre))?;
    for hook in &load.hooks {
        writeln!(out, "\n[[hook]]\nname = {}\nat = {}", text(&hook.name), place(&hook.at))?;
        rated(out, "limit", hook.limit.as_ref())?;
    }
    if let Some(allowable) = &load.allowable {
        writeln!(out, "\n[aircraft]")?;
        rated(out, "allowable", Some(allowable))?;
    }
    for part in &load.parts {
        writeln!(out, "\n[[part]]\nname = {}", text(&part.name))?;
        hook_of(out, part.hook.as_ref())?;
        rated(out, "rated", Some(&part.rating))?;
    }
    for leg in &load.legs {
        writeln!(out, "\n[[leg]]\nname = {}", text(&leg.name))?;
        hook_of(out, leg.hook.as_ref())?;
        writeln!(out, "lift_point = {}", place(&leg.lift_point))?;
        match &leg.reach {
            Reach::Length(length) => writeln!(out, "length = {}", text(length))?,
            Reach::RopeAndChain(rope, of) => writeln!(out, "rope = {}\nchain = {}", text(rope), chain(of))?,
            Reach::Chain(of) => writeln!(out, "chain = {}", chain(of))?,
        }
        if let Some(stretch) = leg.stretch {
            writeln!(out, "stretch = {}", text(stretch))?;
        }
        rated(out, "rated", leg.rated.as_ref())?;
        for part in &leg.parts {
            writeln!(out, "[[leg.part]]\nname = {}", text(&part.name))?;
            rated(out, "rated", Some(&part.rating))?;
        }
    }
    Ok(())
}

fn hook_of(out: &mut String, hook: Option<&Name>) -> std::fmt::Result {
    hook.map_or(Ok(()), |hook| writeln!(out, "hook = {}", text(hook)))
}

fn rated(out: &mut String, key: &str, rating: Option<&Rating>) -> std::fmt::Result {
    let Some(rating) = rating else { return Ok(()) };
    writeln!(out, "{key} = {}", text(rating.value))?;
    rating.source.as_ref().map_or(Ok(()), |source| writeln!(out, "source = {}", text(source)))
}

fn chain(chain: &Chain) -> String {
    let reeved = match chain.reeved {
        Reeved::Loop => "loop",
        Reeved::Single => "single",
    };
    let (links, seated, pitch) = (chain.links, chain.seated, text(chain.pitch));
    format!("{{ links = {links}, seated = {seated}, pitch = {pitch}, reeved = \"{reeved}\" }}")
}

fn place(place: &[Quantity; 3]) -> String {
    format!("[{}]", place.map(text).join(", "))
}

/// A basic string of TOML.
fn text(value: impl std::fmt::Display) -> String {
    let mut out = String::from("\"");
    for letter in value.to_string().chars() {
        match letter {
            '"' => out.push_str("\\\""),
            '\\' => out.push_str("\\\\"),
            letter if letter.is_control() => {
                let _ = write!(out, "\\u{:04X}", u32::from(letter));
            }
            letter => out.push(letter),
        }
    }
    out.push('"');
    out
}
