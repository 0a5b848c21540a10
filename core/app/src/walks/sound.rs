//! What a sound load answers: for the demonstration, for practice and for tests. No screen of an inspection asks it.

use crate::{PointKind, PointView, WalkView};
use slingseal_walk::procedure::{BUILT_IN, Expected, Kind, built_in};
use slingseal_words::{Language, Quantity};

/// The link that the example tags plan for every leg.
const PLANNED_LINK: u32 = 3;

/// What a careful inspector enters at a point of a sound load, by a procedure that comes with the program.
pub fn sound_answer(view: &WalkView, point: &PointView) -> String {
    let own = BUILT_IN.iter().filter(|own| own.id == view.procedure).find_map(|own| built_in(own.id));
    let plan = own.map(|own| own.expand(Language::English));
    let known = plan.as_ref().and_then(|plan| {
        plan.cards.iter().flat_map(|card| &card.points).find(|known| known.id.as_str() == point.id)
    });
    match (known.map(|known| &known.kind), &point.kind) {
        (Some(Kind::Count(Expected::Fixed(wanted))), _) => wanted.to_string(),
        (_, PointKind::Count { .. }) => PLANNED_LINK.to_string(),
        (Some(Kind::Choice(options)), _) => {
            options.iter().find(|option| option.right).map(|option| option.name.clone()).unwrap_or_default()
        }
        (Some(Kind::Measure { least, most, .. }), PointKind::Measure { unit, .. }) => {
            least.or(*most).as_ref().map_or_else(|| format!("30 {unit}"), Quantity::to_string)
        }
        (_, PointKind::Choice { options }) => {
            options.first().map(|option| option.name.clone()).unwrap_or_default()
        }
        (_, PointKind::Measure { unit, .. }) => format!("30 {unit}"),
        (_, PointKind::Serial) => "SN-1".into(),
        (_, PointKind::Look | PointKind::Text) => "seen".into(),
    }
}
