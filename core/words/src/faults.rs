use std::fmt;

use slingseal_catalogue::Saying;

/// A place in a text file, both counted from one; a column counts characters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Spot {
    /// The line.
    pub line: usize,
    /// The character in the line.
    pub column: usize,
}

impl Spot {
    /// The place of the byte `offset` in `text`.
    pub fn of(text: &str, offset: usize) -> Self {
        let mut spot = Self { line: 1, column: 1 };
        for (at, letter) in text.char_indices() {
            if at >= offset {
                break;
            }
            if letter == '\n' {
                spot.line += 1;
                spot.column = 1;
            } else {
                spot.column += 1;
            }
        }
        spot
    }
}

impl fmt::Display for Spot {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}:{}", self.line, self.column)
    }
}

/// One thing that is wrong in a file that a person wrote: where, what, and how to mend it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fault {
    /// Where it is.
    pub spot: Spot,
    /// What is wrong.
    pub what: Saying,
    /// What to write instead; none where `what` says it.
    pub mend: Option<Saying>,
}

impl Fault {
    /// What is wrong at a place, and how to mend it.
    pub fn new(spot: Spot, what: impl Into<Saying>, mend: impl Into<Saying>) -> Self {
        Self { spot, what: what.into(), mend: Some(mend.into()) }
    }

    /// What an error says of a place. Those that name the mend do so behind a semicolon; for the others there is `mend`.
    pub fn of(spot: Spot, error: impl Into<Saying>, mend: impl Into<Saying>) -> Self {
        let what = error.into();
        let told = what.to_string().contains("; ");
        Self { spot, what, mend: (!told).then(|| mend.into()) }
    }

    /// One line: what it quotes of the file may hold anything.
    pub fn saying(&self) -> Saying {
        let parts = [Some(&self.what), self.mend.as_ref()].into_iter().flatten().cloned();
        Saying::joined([Saying::verbatim(self.spot), Saying::joined(parts, "; ")], ": ")
    }
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.saying().fmt(f)
    }
}

/// Every fault of a file, in the order of the file; never empty.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Faults(Vec<Fault>);

impl Faults {
    /// `None` where there is no fault.
    pub fn new(mut faults: Vec<Fault>) -> Option<Self> {
        faults.sort_by_key(|fault| fault.spot);
        faults.dedup();
        (!faults.is_empty()).then_some(Self(faults))
    }

    /// The faults, first in the file first.
    pub fn iter(&self) -> impl Iterator<Item = &Fault> {
        self.0.iter()
    }
}

impl fmt::Display for Faults {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (at, fault) in self.0.iter().enumerate() {
            if at > 0 {
                writeln!(f)?;
            }
            write!(f, "{fault}")?;
        }
        Ok(())
    }
}

impl Faults {
    /// A line a fault.
    pub fn saying(&self) -> Saying {
        Saying::joined(self.0.iter().map(Fault::saying), "\n")
    }
}

impl From<Faults> for Saying {
    fn from(faults: Faults) -> Self {
        faults.saying()
    }
}

impl std::error::Error for Faults {}
