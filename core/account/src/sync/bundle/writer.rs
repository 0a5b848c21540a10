use std::io::{self, Write};

use super::{FRONT, ItemKind, MARK, TooLong, check_of};

/// Writes a bundle item by item, so that memory stays flat however long it gets.
#[derive(Debug)]
pub struct BundleWriter<W: Write> {
    out: W,
}

impl<W: Write> BundleWriter<W> {
    /// Begins a bundle.
    ///
    /// # Errors
    /// What the writer meets.
    pub fn begin(mut out: W) -> io::Result<Self> {
        out.write_all(FRONT)?;
        Ok(Self { out })
    }

    /// Adds an item; it is left out, and said so, where it is longer than a bundle carries.
    ///
    /// # Errors
    /// What the writer meets.
    pub fn add(&mut self, kind: ItemKind, body: &[u8]) -> io::Result<Result<(), TooLong>> {
        let most = kind.most();
        let length = match u32::try_from(body.len()) {
            Ok(length) if body.len() <= most => length,
            _ => return Ok(Err(TooLong { kind, bytes: body.len(), most })),
        };
        self.out.write_all(&MARK)?;
        self.out.write_all(&[kind.code()])?;
        self.out.write_all(&length.to_be_bytes())?;
        self.out.write_all(&check_of(kind.code(), length, body))?;
        self.out.write_all(body)?;
        Ok(Ok(()))
    }

    /// Ends the bundle.
    ///
    /// # Errors
    /// What the writer meets.
    pub fn finish(mut self) -> io::Result<W> {
        self.out.flush()?;
        Ok(self.out)
    }
}
