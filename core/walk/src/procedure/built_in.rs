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
];

/// The procedure of this id that comes with the program; `None` where there is none.
pub fn built_in(id: &str) -> Option<Procedure> {
    BUILT_IN.iter().find(|own| own.id == id).and_then(|own| check(own.text).ok())
}
