use minicbor::{Decoder, Encoder, data::Type};
use slingseal_catalogue::{Saying, faults as words};

/// A message that passed the strict check but is not built as its kind is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ShapeError(pub &'static str);

impl ShapeError {
    /// One line: what is wrong; what to do.
    pub fn saying(&self) -> Saying {
        words::ShapeError { place: self.0 }.into()
    }
}

slingseal_catalogue::error_by_saying!(ShapeError);

/// Writes deterministic CBOR; the caller writes map keys in the order of their encoded bytes (a test reads every
/// message back through the strict check).
#[derive(Debug)]
pub struct Writer(Encoder<Vec<u8>>);

impl Default for Writer {
    fn default() -> Self {
        Self::new()
    }
}

impl Writer {
    /// Starts with nothing.
    pub fn new() -> Self {
        Self(Encoder::new(Vec::new()))
    }

    /// What was written.
    pub fn into_bytes(self) -> Vec<u8> {
        self.0.into_writer()
    }

    /// The head of a map of so many pairs.
    pub fn map(&mut self, pairs: usize) -> &mut Self {
        self.put(|encoder| encoder.map(pairs as u64).map(drop))
    }

    /// The head of an array of so many items.
    pub fn array(&mut self, items: usize) -> &mut Self {
        self.put(|encoder| encoder.array(items as u64).map(drop))
    }

    /// A whole number.
    pub fn int(&mut self, number: i64) -> &mut Self {
        self.put(|encoder| encoder.i64(number).map(drop))
    }

    /// A text.
    pub fn text(&mut self, text: &str) -> &mut Self {
        self.put(|encoder| encoder.str(text).map(drop))
    }

    /// A byte string.
    pub fn bytes(&mut self, bytes: &[u8]) -> &mut Self {
        self.put(|encoder| encoder.bytes(bytes).map(drop))
    }

    /// Nothing.
    pub fn null(&mut self) -> &mut Self {
        self.put(|encoder| encoder.null().map(drop))
    }

    /// `write` for a value that is there, null otherwise.
    pub fn maybe<T>(&mut self, value: Option<T>, write: impl FnOnce(&mut Self, T) -> &mut Self) -> &mut Self {
        match value {
            Some(value) => write(self, value),
            None => self.null(),
        }
    }

    /// An item that is encoded already.
    pub fn raw(&mut self, item: &[u8]) -> &mut Self {
        self.0.writer_mut().extend_from_slice(item);
        self
    }

    fn put(
        &mut self,
        write: impl FnOnce(&mut Encoder<Vec<u8>>) -> Result<(), minicbor::encode::Error<std::convert::Infallible>>,
    ) -> &mut Self {
        write(&mut self.0).expect("writing to memory cannot fail");
        self
    }
}

/// Reads bytes that passed [`check`](super::check). Every getter names the part that it reads, for the error.
#[derive(Debug)]
pub struct Reader<'b>(Decoder<'b>);

impl<'b> Reader<'b> {
    /// Reads from the start.
    pub fn new(bytes: &'b [u8]) -> Self {
        Self(Decoder::new(bytes))
    }

    /// An array of exactly `N` items.
    pub fn array(&mut self, items: usize, part: &'static str) -> Result<(), ShapeError> {
        match self.0.array() {
            Ok(Some(found)) if found == items as u64 => Ok(()),
            _ => Err(ShapeError(part)),
        }
    }

    /// An array of any length: how many items it has.
    pub fn any_array(&mut self, part: &'static str) -> Result<u64, ShapeError> {
        self.0.array().ok().flatten().ok_or(ShapeError(part))
    }

    /// Every item of an array of at most `most`.
    pub fn list<T>(
        &mut self,
        most: usize,
        part: &'static str,
        mut read: impl FnMut(&mut Self) -> Result<T, ShapeError>,
    ) -> Result<Vec<T>, ShapeError> {
        let found = self.any_array(part)?;
        if found > most as u64 {
            return Err(ShapeError(part));
        }
        (0..found).map(|_| read(self)).collect()
    }

    /// Every pair of a map with integer keys. `read` takes the value of a key that it knows and answers `Ok(true)`;
    /// an unknown key is an error, since a reader that skips what it does not know shows half a message as a whole.
    pub fn map(
        &mut self,
        part: &'static str,
        mut read: impl FnMut(i64, &mut Self) -> Result<bool, ShapeError>,
    ) -> Result<(), ShapeError> {
        let found = self.0.map().ok().flatten().ok_or(ShapeError(part))?;
        for _ in 0..found {
            let key = self.int(part)?;
            if !read(key, self)? {
                return Err(ShapeError(part));
            }
        }
        Ok(())
    }

    /// A whole number.
    pub fn int(&mut self, part: &'static str) -> Result<i64, ShapeError> {
        self.0.i64().map_err(|_| ShapeError(part))
    }

    /// A whole number that fits the type.
    pub fn small<T: TryFrom<i64>>(&mut self, part: &'static str) -> Result<T, ShapeError> {
        T::try_from(self.int(part)?).map_err(|_| ShapeError(part))
    }

    /// A text.
    pub fn text(&mut self, part: &'static str) -> Result<&'b str, ShapeError> {
        self.0.str().map_err(|_| ShapeError(part))
    }

    /// A text that `make` accepts exactly as it stands.
    pub fn line<T, E>(
        &mut self,
        part: &'static str,
        make: impl FnOnce(&str) -> Result<T, E>,
    ) -> Result<T, ShapeError>
    where
        T: std::fmt::Display,
    {
        Self::line_of(self.text(part)?, part, make)
    }

    /// A text that was read already and that `make` accepts exactly as it stands: one that our own writer would have
    /// trimmed or folded was not written by it.
    pub fn line_of<T, E>(
        text: &str,
        part: &'static str,
        make: impl FnOnce(&str) -> Result<T, E>,
    ) -> Result<T, ShapeError>
    where
        T: std::fmt::Display,
    {
        match make(text) {
            Ok(line) if line.to_string() == text => Ok(line),
            _ => Err(ShapeError(part)),
        }
    }

    /// A byte string.
    pub fn bytes(&mut self, part: &'static str) -> Result<&'b [u8], ShapeError> {
        self.0.bytes().map_err(|_| ShapeError(part))
    }

    /// A byte string of exactly `N` bytes.
    pub fn fixed<const N: usize>(&mut self, part: &'static str) -> Result<[u8; N], ShapeError> {
        self.bytes(part)?.try_into().map_err(|_| ShapeError(part))
    }

    /// Null, or what `read` reads.
    pub fn maybe<T>(
        &mut self,
        part: &'static str,
        read: impl FnOnce(&mut Self) -> Result<T, ShapeError>,
    ) -> Result<Option<T>, ShapeError> {
        match self.0.datatype() {
            Ok(Type::Null) => {
                self.0.null().map_err(|_| ShapeError(part))?;
                Ok(None)
            }
            Ok(_) => read(self).map(Some),
            Err(_) => Err(ShapeError(part)),
        }
    }

    /// The next item as it stands, undecoded.
    pub fn raw(&mut self, part: &'static str) -> Result<&'b [u8], ShapeError> {
        let start = self.0.position();
        self.0.skip().map_err(|_| ShapeError(part))?;
        self.0.input().get(start..self.0.position()).ok_or(ShapeError(part))
    }

    /// Whether the next item is an array.
    pub fn at_array(&self) -> bool {
        matches!(self.0.datatype(), Ok(Type::Array))
    }
}
