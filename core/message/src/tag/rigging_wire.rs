//! The rigging inside a tag. Mass and allowable load are the tag's and are not told twice.
//!
//! ```cddl
//! rigging = [centre: point, hooks: [+ hook], parts: [* part], legs: [+ leg]]
//! hook  = [name, point, rating / null]
//! part  = [name, hook / null, rating]
//! leg   = [name, hook / null, point, reach, [quantity] / null, rating / null, [* [name, rating]]]
//! reach = [0, quantity] / [1, quantity, chain] / [2, chain]
//! chain = [links, seated, quantity, 0 / 1]                    ; 1: reeved as a loop
//! rating = [quantity, source / null]
//! point = [quantity, quantity, quantity]                      ; a quantity is two items
//! ```

use crate::envelope::{Reader, ShapeError, Writer};
use slingseal_rigging::{Chain, CommonPart, Hook, Leg, LegPart, Rating, Reach, Reeved, RiggedLoad};
use slingseal_words::{Name, Quantity, Source};

const MOST_HOOKS: usize = 2;

pub(super) fn write(out: &mut Writer, load: &RiggedLoad) {
    out.array(4);
    write_point(out, &load.centre);
    out.array(load.hooks.len());
    for hook in &load.hooks {
        out.array(3).text(hook.name.as_str());
        write_point(out, &hook.at);
        out.maybe(hook.limit.as_ref(), write_rating);
    }
    out.array(load.parts.len());
    for part in &load.parts {
        out.array(3).text(part.name.as_str());
        out.maybe(part.hook.as_ref(), |out, hook| out.text(hook.as_str()));
        write_rating(out, &part.rating);
    }
    out.array(load.legs.len());
    for leg in &load.legs {
        write_leg(out, leg);
    }
}

fn write_leg(out: &mut Writer, leg: &Leg) {
    out.array(7).text(leg.name.as_str());
    out.maybe(leg.hook.as_ref(), |out, hook| out.text(hook.as_str()));
    write_point(out, &leg.lift_point);
    match &leg.reach {
        Reach::Length(length) => {
            out.array(3).int(0).quantity(*length);
        }
        Reach::RopeAndChain(rope, chain) => {
            out.array(4).int(1).quantity(*rope);
            write_chain(out, chain);
        }
        Reach::Chain(chain) => {
            out.array(2).int(2);
            write_chain(out, chain);
        }
    }
    out.maybe(leg.stretch, |out, stretch| out.array(2).quantity(stretch));
    out.maybe(leg.rated.as_ref(), write_rating);
    out.array(leg.parts.len());
    for part in &leg.parts {
        out.array(2).text(part.name.as_str());
        write_rating(out, &part.rating);
    }
}

fn write_chain(out: &mut Writer, chain: &Chain) {
    out.array(5).int(chain.links.into()).int(chain.seated.into()).quantity(chain.pitch);
    out.int(match chain.reeved {
        Reeved::Single => 0,
        Reeved::Loop => 1,
    });
}

fn write_rating<'w>(out: &'w mut Writer, rating: &Rating) -> &'w mut Writer {
    out.array(3).quantity(rating.value);
    out.maybe(rating.source.as_ref(), |out, source| out.text(source.as_str()))
}

fn write_point(out: &mut Writer, point: &[Quantity; 3]) {
    out.array(6);
    for quantity in point {
        out.quantity(*quantity);
    }
}

pub(super) fn read(bytes: &[u8], mass: Quantity, allowable: Quantity) -> Result<RiggedLoad, ShapeError> {
    let mut reader = Reader::new(bytes);
    reader.array(4, "rigging")?;
    Ok(RiggedLoad {
        mass,
        allowable: Some(Rating { value: allowable, source: None }),
        centre: point(&mut reader)?,
        hooks: reader.list(MOST_HOOKS, "hooks", hook)?,
        parts: reader.list(RiggedLoad::MOST_PARTS, "parts", |reader| {
            reader.array(3, "part")?;
            Ok(CommonPart {
                name: reader.line("part", Name::received)?,
                hook: reader.maybe("hook", |reader| reader.line("hook", Name::received))?,
                rating: rating(reader)?,
            })
        })?,
        legs: reader.list(RiggedLoad::MOST_LEGS, "legs", leg)?,
        // A tag of this shape does not carry it.
        rule: None,
    })
}

fn hook(reader: &mut Reader<'_>) -> Result<Hook, ShapeError> {
    reader.array(3, "hook")?;
    Ok(Hook {
        name: reader.line("hook", Name::received)?,
        at: point(reader)?,
        limit: reader.maybe("limit", rating)?,
    })
}

fn leg(reader: &mut Reader<'_>) -> Result<Leg, ShapeError> {
    reader.array(7, "leg")?;
    Ok(Leg {
        name: reader.line("leg", Name::received)?,
        hook: reader.maybe("hook", |reader| reader.line("hook", Name::received))?,
        lift_point: point(reader)?,
        reach: reach(reader)?,
        stretch: reader.maybe("stretch", |reader| {
            reader.array(2, "stretch")?;
            reader.quantity("stretch")
        })?,
        rated: reader.maybe("rating", rating)?,
        parts: reader.list(RiggedLoad::MOST_PARTS, "parts of a leg", |reader| {
            reader.array(2, "part of a leg")?;
            Ok(LegPart { name: reader.line("part", Name::received)?, rating: rating(reader)? })
        })?,
    })
}

fn reach(reader: &mut Reader<'_>) -> Result<Reach, ShapeError> {
    const PART: &str = "length of a leg";
    match reader.any_array(PART)? {
        3 if reader.int(PART)? == 0 => Ok(Reach::Length(reader.quantity(PART)?)),
        4 if reader.int(PART)? == 1 => Ok(Reach::RopeAndChain(reader.quantity(PART)?, chain(reader)?)),
        2 if reader.int(PART)? == 2 => Ok(Reach::Chain(chain(reader)?)),
        _ => Err(ShapeError(PART)),
    }
}

fn chain(reader: &mut Reader<'_>) -> Result<Chain, ShapeError> {
    reader.array(5, "chain")?;
    Ok(Chain {
        links: reader.small("links")?,
        seated: reader.small("seated link")?,
        pitch: reader.quantity("pitch")?,
        reeved: match reader.int("reeving")? {
            0 => Reeved::Single,
            1 => Reeved::Loop,
            _ => return Err(ShapeError("reeving")),
        },
    })
}

fn rating(reader: &mut Reader<'_>) -> Result<Rating, ShapeError> {
    reader.array(3, "rating")?;
    Ok(Rating {
        value: reader.quantity("rating")?,
        source: reader.maybe("source", |reader| reader.line("source", Source::received))?,
    })
}

fn point(reader: &mut Reader<'_>) -> Result<[Quantity; 3], ShapeError> {
    const PART: &str = "place on the load";
    reader.array(6, PART)?;
    Ok([reader.quantity(PART)?, reader.quantity(PART)?, reader.quantity(PART)?])
}
