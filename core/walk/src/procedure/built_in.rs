use super::{Procedure, check};

/// A procedure that comes with the program: a start for a unit's own, never a manual.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct BuiltIn {
    /// The procedure's id, as it stands in the file.
    pub id: &'static str,
    /// The whole file.
    pub text: &'static str,
}

/// The procedures that come with the program, in the order in which they are listed.
pub const BUILT_IN: &[BuiltIn] = &[
    BuiltIn { id: "bag", text: include_str!("../../procedures/bag.toml") },
    BuiltIn { id: "net", text: include_str!("../../procedures/net.toml") },
    BuiltIn { id: "vehicle", text: include_str!("../../procedures/vehicle.toml") },
    BuiltIn { id: "drums", text: include_str!("../../procedures/drums.toml") },
    BuiltIn { id: "longline", text: include_str!("../../procedures/longline.toml") },
    BuiltIn { id: "zone", text: include_str!("../../procedures/zone.toml") },
    BuiltIn { id: "daily-hooks", text: include_str!("../../procedures/daily-hooks.toml") },
    BuiltIn { id: "gear-chain", text: include_str!("../../procedures/gear-chain.toml") },
    BuiltIn { id: "gear-rope", text: include_str!("../../procedures/gear-rope.toml") },
    BuiltIn { id: "gear-web", text: include_str!("../../procedures/gear-web.toml") },
    BuiltIn { id: "gear-net", text: include_str!("../../procedures/gear-net.toml") },
    BuiltIn { id: "gear-hook", text: include_str!("../../procedures/gear-hook.toml") },
    BuiltIn { id: "gear-swivel", text: include_str!("../../procedures/gear-swivel.toml") },
    BuiltIn { id: "gear-lead", text: include_str!("../../procedures/gear-lead.toml") },
    BuiltIn { id: "gear-wand", text: include_str!("../../procedures/gear-wand.toml") },
    BuiltIn { id: "hookup", text: include_str!("../../procedures/hookup.toml") },
    BuiltIn { id: "derig", text: include_str!("../../procedures/derig.toml") },
];

/// Editions that were released and have been replaced: a record of one is read by it for ever, on every device.
pub const RELEASED: &[BuiltIn] = &[
    BuiltIn { id: "bag", text: include_str!("../../procedures/released/bag-1.toml") },
    BuiltIn { id: "net", text: include_str!("../../procedures/released/net-1.toml") },
    BuiltIn { id: "vehicle", text: include_str!("../../procedures/released/vehicle-1.toml") },
    BuiltIn { id: "vehicle", text: include_str!("../../procedures/released/vehicle-2.toml") },
    BuiltIn { id: "drums", text: include_str!("../../procedures/released/drums-1.toml") },
    BuiltIn { id: "longline", text: include_str!("../../procedures/released/longline-1.toml") },
];

/// The procedure of this id that comes with the program; `None` where there is none.
pub fn built_in(id: &str) -> Option<Procedure> {
    BUILT_IN.iter().find(|own| own.id == id).and_then(|own| check(own.text).ok())
}
