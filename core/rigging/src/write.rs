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
        put(out, "rule", text(rule.as_str()))?;
    }
    writeln!(out, "[load]")?;
    put(out, "mass", text(load.mass))?;
    put(out, "centre", place(&load.centre))?;
    for hook in &load.hooks {
        writeln!(out, "\n[[hook]]")?;
        put(out, "name", text(&hook.name))?;
        put(out, "at", place(&hook.at))?;
        rated(out, "limit", hook.limit.as_ref())?;
    }
    if let Some(allowable) = &load.allowable {
        writeln!(out, "\n[aircraft]")?;
        rated(out, "allowable", Some(allowable))?;
    }
    for part in &load.parts {
        writeln!(out, "\n[[part]]")?;
        put(out, "name", text(&part.name))?;
        hook_of(out, part.hook.as_ref())?;
        rated(out, "rated", Some(&part.rating))?;
    }
    for leg in &load.legs {
        writeln!(out, "\n[[leg]]")?;
        put(out, "name", text(&leg.name))?;
        hook_of(out, leg.hook.as_ref())?;
        put(out, "lift_point", place(&leg.lift_point))?;
        match &leg.reach {
            Reach::Length(length) => put(out, "length", text(length))?,
            Reach::RopeAndChain(rope, of) => {
                put(out, "rope", text(rope))?;
                put(out, "chain", chain(of))?;
            }
            Reach::Chain(of) => put(out, "chain", chain(of))?,
        }
        if let Some(stretch) = leg.stretch {
            put(out, "stretch", text(stretch))?;
        }
        rated(out, "rated", leg.rated.as_ref())?;
        for part in &leg.parts {
            writeln!(out, "[[leg.part]]")?;
            put(out, "name", text(&part.name))?;
            rated(out, "rated", Some(&part.rating))?;
        }
    }
    Ok(())
}

fn put(out: &mut String, key: &str, value: impl std::fmt::Display) -> std::fmt::Result {
    writeln!(out, "{key} = {value}")
}

fn hook_of(out: &mut String, hook: Option<&Name>) -> std::fmt::Result {
    hook.map_or(Ok(()), |hook| put(out, "hook", text(hook)))
}

fn rated(out: &mut String, key: &str, rating: Option<&Rating>) -> std::fmt::Result {
    let Some(rating) = rating else { return Ok(()) };
    put(out, key, text(rating.value))?;
    rating.source.as_ref().map_or(Ok(()), |source| put(out, "source", text(source)))
}

fn chain(chain: &Chain) -> String {
    let reeved = match chain.reeved {
        Reeved::Loop => "loop",
        Reeved::Single => "single",
    };
    chain_table(&chain.links.to_string(), &chain.seated.to_string(), &text(chain.pitch), &text(reeved))
}

/// A chain as a table in a line; what stands in it is TOML already.
pub fn chain_table(links: &str, seated: &str, pitch: &str, reeved: &str) -> String {
    let keys = [("links", links), ("seated", seated), ("pitch", pitch), ("reeved", reeved)];
    let pairs: Vec<String> = keys.iter().map(|(key, value)| format!("{key} = {value}")).collect();
    ["{ ", &pairs.join(", "), " }"].concat()
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
