use std::io::{self, Read};

use super::{FRONT, HEAD, Item, ItemKind, MARK, check_of};

/// What comes next in a bundle.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Piece {
    /// An item whose check fits.
    Item(Item),
    /// A stretch that is damaged, up to the next good item or the end.
    Damaged {
        /// Where it begins, in bytes from the start.
        at: u64,
        /// How many items were read before it.
        after: u64,
        /// Its first bytes, at most 64 KiB.
        bytes: Vec<u8>,
        /// How long it is.
        length: u64,
    },
}

/// Reads a bundle item by item; memory is bounded by twice the largest item, work by the bytes that are read.
#[derive(Debug)]
pub struct BundleReader<R: Read> {
    input: R,
    /// Read and not yet used; `start` is the first unused byte.
    buffer: Vec<u8>,
    start: usize,
    /// Bytes used since the beginning.
    at: u64,
    items: u64,
    ended: bool,
    /// Bytes that were put through a check, and those of them whose check did not fit.
    checked: u64,
    in_vain: u64,
    /// Bytes that were moved to the front of the buffer.
    moved: u64,
}

impl<R: Read> BundleReader<R> {
    const KEPT: usize = 64 << 10;
    /// What may be checked in vain: so many bytes, and so many times what was read. An item that is damaged costs its length
    /// once; only a file that was made to cost more has a mark every few bytes, each before a long body. There reading goes
    /// on, and what would cost more is taken for damage.
    const IN_VAIN: u64 = 64 << 20;
    const IN_VAIN_A_BYTE: u64 = 4;

    /// Begins to read; `Ok(None)` where this is no bundle.
    ///
    /// # Errors
    /// What the reader meets.
    pub fn begin(input: R) -> io::Result<Option<Self>> {
        let mut reader = Self {
            input,
            buffer: Vec::new(),
            start: 0,
            at: 0,
            items: 0,
            ended: false,
            checked: 0,
            in_vain: 0,
            moved: 0,
        };
        reader.fill(FRONT.len())?;
        if !reader.rest().starts_with(FRONT) {
            return Ok(None);
        }
        reader.skip(FRONT.len());
        Ok(Some(reader))
    }

    /// How many bytes were used: for progress.
    pub fn position(&self) -> u64 {
        self.at
    }

    /// The work that was done so far, in bytes put through a check or moved: at most a few times what was read, and 64 MiB.
    pub fn work(&self) -> u64 {
        self.checked + self.moved
    }

    /// The next piece; `None` at the end.
    ///
    /// # Errors
    /// What the reader meets.
    pub fn next_piece(&mut self) -> io::Result<Option<Piece>> {
        if let Some(item) = self.item()? {
            self.items += 1;
            return Ok(Some(Piece::Item(item)));
        }
        self.fill(1)?;
        if self.rest().is_empty() {
            return Ok(None);
        }
        let (at, after) = (self.at, self.items);
        let mut bytes = Vec::new();
        // Past this byte, mark by mark, until a whole item stands there.
        loop {
            self.step(1, &mut bytes);
            let found = loop {
                self.fill(MARK.len())?;
                let rest = self.rest();
                match rest.windows(MARK.len()).position(|window| window == MARK) {
                    Some(gap) => {
                        self.step(gap, &mut bytes);
                        break true;
                    }
                    None if self.ended => {
                        let gap = rest.len();
                        self.step(gap, &mut bytes);
                        break false;
                    }
                    None => {
                        let gap = rest.len() - (MARK.len() - 1);
                        self.step(gap, &mut bytes);
                    }
                }
            };
            if !found || self.whole_item_here()? {
                break;
            }
        }
        let length = self.at - at;
        Ok(Some(Piece::Damaged { at, after, bytes, length }))
    }

    /// The item that stands here, if a whole one does.
    fn item(&mut self) -> io::Result<Option<Item>> {
        if !self.whole_item_here()? {
            return Ok(None);
        }
        let Some((kind, length)) = self.head() else { return Ok(None) };
        let body = self.rest().get(HEAD..HEAD + length).unwrap_or_default().to_vec();
        self.skip(HEAD + length);
        Ok(Some(Item { kind, body }))
    }

    fn whole_item_here(&mut self) -> io::Result<bool> {
        self.fill(HEAD)?;
        let Some((kind, length)) = self.head() else { return Ok(false) };
        if self.in_vain + length as u64 > Self::IN_VAIN + Self::IN_VAIN_A_BYTE * self.at {
            return Ok(false);
        }
        self.fill(HEAD + length)?;
        let rest = self.rest();
        let Some(body) = rest.get(HEAD..HEAD + length) else { return Ok(false) };
        let check = rest.get(HEAD - 8..HEAD).unwrap_or_default();
        let told = u32::try_from(length).unwrap_or(u32::MAX);
        let fits = check == check_of(kind.code(), told, body);
        self.checked += length as u64;
        self.in_vain += if fits { 0 } else { length as u64 };
        Ok(fits)
    }

    /// Kind and length of the item here, if they can be believed as far as the bounds.
    fn head(&self) -> Option<(ItemKind, usize)> {
        let rest = self.rest().strip_prefix(&MARK)?;
        let (&[kind], rest) = rest.split_first_chunk::<1>()?;
        let (length, _) = rest.split_first_chunk::<4>()?;
        let kind = ItemKind::from_code(kind)?;
        let length = usize::try_from(u32::from_be_bytes(*length)).ok()?;
        // The length comes first: a hostile one must not choose how much is read.
        (length <= kind.most()).then_some((kind, length))
    }

    fn rest(&self) -> &[u8] {
        self.buffer.get(self.start..).unwrap_or_default()
    }

    fn step(&mut self, length: usize, bytes: &mut Vec<u8>) {
        let room = Self::KEPT.saturating_sub(bytes.len());
        bytes.extend(self.rest().iter().take(length.min(room)));
        self.skip(length);
    }

    fn skip(&mut self, length: usize) {
        let length = length.min(self.rest().len());
        self.start += length;
        self.at += length as u64;
    }

    /// Has `wanted` unused bytes in the buffer, or all that there are.
    fn fill(&mut self, wanted: usize) -> io::Result<()> {
        if self.rest().len() >= wanted || self.ended {
            return Ok(());
        }
        // Only when as much was used as is left: each byte is moved once for one that was used.
        if self.start >= self.rest().len() {
            self.moved += self.rest().len() as u64;
            self.buffer.drain(..self.start);
            self.start = 0;
        }
        let mut chunk = [0u8; 16 << 10];
        while self.rest().len() < wanted {
            match self.input.read(&mut chunk) {
                Ok(0) => {
                    self.ended = true;
                    break;
                }
                Ok(count) => self.buffer.extend(chunk.iter().take(count)),
                Err(error) if error.kind() == io::ErrorKind::Interrupted => {}
                Err(error) => return Err(error),
            }
        }
        Ok(())
    }
}
