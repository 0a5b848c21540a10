use std::fmt;

use slingseal_catalogue::{Argument, Saying, ToArgument, judgement as words};

/// What a credential lets its holder do.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Role {
    /// Walks loads and seals them.
    Inspector,
    /// Signs load tags.
    Planner,
    /// Confirms seals before the aircraft is called, voids them.
    Hookup,
    /// Reviews the account.
    Leader,
    /// Examines students.
    Instructor,
}

impl Role {
    /// Every role.
    pub const ALL: [Self; 5] = [Self::Inspector, Self::Planner, Self::Hookup, Self::Leader, Self::Instructor];

    /// The role's name.
    pub fn name(self) -> &'static str {
        match self {
            Self::Inspector => "inspector",
            Self::Planner => "planner",
            Self::Hookup => "hookup",
            Self::Leader => "leader",
            Self::Instructor => "instructor",
        }
    }

    fn bit(self) -> u8 {
        match self {
            Self::Inspector => 1,
            Self::Planner => 2,
            Self::Hookup => 4,
            Self::Leader => 8,
            Self::Instructor => 16,
        }
    }
}

impl Role {
    /// What a person calls it, in no language yet.
    pub fn saying(self) -> Saying {
        match self {
            Self::Inspector => words::RoleInspector.into(),
            Self::Planner => words::RolePlanner.into(),
            Self::Hookup => words::RoleHookup.into(),
            Self::Leader => words::RoleLeader.into(),
            Self::Instructor => words::RoleInstructor.into(),
        }
    }
}

impl Roles {
    /// What a person calls them, in no language yet.
    pub fn saying(self) -> Saying {
        Saying::joined(self.iter().map(Role::saying), ", ")
    }
}

impl ToArgument for Role {
    fn to_argument(&self) -> Argument {
        Argument::Said(self.saying())
    }
}

impl ToArgument for Roles {
    fn to_argument(&self) -> Argument {
        Argument::Said(self.saying())
    }
}

impl fmt::Display for Role {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}

/// A set of roles.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Roles(u8);

impl Roles {
    /// The set of these.
    pub fn of(roles: &[Role]) -> Self {
        Self(roles.iter().fold(0, |sum, role| sum | role.bit()))
    }

    /// Whether the role is in it.
    pub fn has(self, role: Role) -> bool {
        self.0 & role.bit() != 0
    }

    /// Whether none is.
    pub fn is_empty(self) -> bool {
        self.0 == 0
    }

    /// The roles in it, in a fixed order.
    pub fn iter(self) -> impl Iterator<Item = Role> {
        Role::ALL.into_iter().filter(move |role| self.has(*role))
    }

    /// Reads `inspector,planner`; the error is the word that is no role.
    pub fn parse(text: &str) -> Result<Self, String> {
        let mut roles = Self::default();
        for word in text.split([',', '+']).map(str::trim).filter(|word| !word.is_empty()) {
            let role =
                Role::ALL.into_iter().find(|role| role.name() == word).ok_or_else(|| word.to_owned())?;
            roles.0 |= role.bit();
        }
        Ok(roles)
    }

    pub(super) fn bits(self) -> u8 {
        self.0
    }

    /// `None` for a bit that no role has.
    pub(super) fn from_bits(bits: u8) -> Option<Self> {
        let known = Self::of(&Role::ALL).0;
        (bits & !known == 0).then_some(Self(bits))
    }
}

impl fmt::Display for Roles {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let names: Vec<_> = self.iter().map(Role::name).collect();
        f.write_str(&names.join(", "))
    }
}
