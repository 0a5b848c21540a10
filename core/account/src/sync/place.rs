//! A common place where many desks put their words and take those of others: what a word goes by there, and how far a home has
//! read. The place is trusted with nothing: a key says which word, never what it is worth.

use slingseal_message::envelope::{Limits, Reader, ShapeError, StrictError, Writer, check};
use slingseal_words::Digest;

use super::{ItemKind, RecordItem};

/// The most places that a home remembers; the one not read for longest is forgotten, and read from its beginning again.
const MOST_PLACES: usize = 8;
/// The most desks of one place.
const MOST_SOURCES: usize = 10_000;

/// What a word goes by: the digest over its kind and the digests of its parts, so that whoever keeps the parts apart knows it
/// without putting them together.
///
/// ```text
/// key = SHA-256(kind:1  SHA-256(part):32  ...)      a record's parts are its seal and, where it is there, its full record;
///                                                   of all else the one part is the whole
/// ```
pub fn word_key(kind: ItemKind, parts: &[Digest]) -> Digest {
    let kind = [kind.code()];
    let mut all: Vec<&[u8]> = vec![&kind];
    all.extend(parts.iter().map(|part| part.as_bytes().as_slice()));
    Digest::of_parts(&all)
}

/// What a word goes by whose bytes are here.
///
/// # Errors
/// A record or an inspection that is not built as one.
pub fn word_key_of(kind: ItemKind, body: &[u8]) -> Result<Digest, ShapeError> {
    if !matches!(kind, ItemKind::Record | ItemKind::Inspection) {
        return Ok(word_key(kind, &[Digest::of(body)]));
    }
    let item = RecordItem::parse(body)?;
    // One word has one spelling: otherwise it could lie there twice.
    if item.to_bytes() != body {
        return Err(ShapeError("spelling of a record"));
    }
    let parts: Vec<Digest> =
        std::iter::once(Digest::of(&item.seal)).chain(item.record.as_deref().map(Digest::of)).collect();
    Ok(word_key(kind, &parts))
}

/// How far the words of one desk were read at a place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Position {
    /// Whose words: the desk that put them there.
    pub source: [u8; 16],
    /// The number of the last one that was read.
    pub number: i64,
    /// What that one went by. A place that says otherwise later was put back to an older state: it is read anew.
    pub key: Digest,
}

/// How far one place was read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ServerState {
    /// What the place calls itself.
    pub server: [u8; 16],
    /// Under what trust: a home that trusts others now reads it all again, since what it refused then may count now.
    pub trust: Digest,
    /// How far, in the order of the desks; one of each.
    pub positions: Vec<Position>,
}

impl ServerState {
    /// How far the words of a desk were read.
    pub fn of(&self, source: &[u8; 16]) -> Option<&Position> {
        self.positions.iter().find(|position| position.source == *source)
    }

    /// Says that a desk's words were read so far; `false` where there are too many desks.
    pub fn read(&mut self, position: Position) -> bool {
        match self.positions.binary_search_by_key(&position.source, |known| known.source) {
            Ok(at) => {
                if let Some(known) = self.positions.get_mut(at) {
                    *known = position;
                }
            }
            Err(_) if self.positions.len() >= MOST_SOURCES => return false,
            Err(at) => self.positions.insert(at, position),
        }
        true
    }
}

/// How far each place was read, as a home keeps it.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct PlaceState(Vec<ServerState>);

impl PlaceState {
    /// How far a place was read under this trust; from its beginning where it is unknown, or trust has changed.
    pub fn of(&self, server: [u8; 16], trust: Digest) -> ServerState {
        let known = self.0.iter().find(|known| known.server == server && known.trust == trust);
        known.cloned().unwrap_or(ServerState { server, trust, positions: Vec::new() })
    }

    /// Keeps how far a place was read.
    pub fn keep(&mut self, state: ServerState) {
        self.0.retain(|known| known.server != state.server);
        self.0.push(state);
        let more = self.0.len().saturating_sub(MOST_PLACES);
        self.0.drain(..more);
    }

    /// Forgets how far a place was read.
    pub fn forget(&mut self, server: &[u8; 16]) {
        self.0.retain(|known| known.server != *server);
    }

    /// As it is kept.
    ///
    /// ```cddl
    /// places = [* [server: bstr .size 16, trust: bstr .size 32, [* [source: bstr .size 16, number: int, key: bstr .size 32]]]]
    /// ```
    pub fn to_bytes(&self) -> Vec<u8> {
        let mut out = Writer::new();
        out.array(self.0.len());
        for state in &self.0 {
            out.array(3).bytes(&state.server).bytes(state.trust.as_bytes()).array(state.positions.len());
            for position in &state.positions {
                out.array(3).bytes(&position.source).int(position.number).bytes(position.key.as_bytes());
            }
        }
        out.into_bytes()
    }

    /// Reads what was kept.
    ///
    /// # Errors
    /// Another shape. Nothing depends on it: a home that cannot read it reads every place from its beginning.
    pub fn parse(bytes: &[u8]) -> Result<Self, PlaceError> {
        check(bytes, Limits::FILE)?;
        let mut reader = Reader::new(bytes);
        let all = reader.list(MOST_PLACES, "places", |reader| {
            reader.array(3, "place")?;
            let (server, trust) = (reader.fixed("server")?, Digest::from_bytes(reader.fixed("trust")?));
            let positions = reader.list(MOST_SOURCES, "positions", |reader| {
                reader.array(3, "position")?;
                Ok(Position {
                    source: reader.fixed("source")?,
                    number: reader.int("number")?,
                    key: Digest::from_bytes(reader.fixed("key")?),
                })
            })?;
            Ok(ServerState { server, trust, positions })
        })?;
        Ok(Self(all))
    }
}

/// Why what was kept cannot be read.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum PlaceError {
    /// Not deterministic CBOR.
    #[error(transparent)]
    Strict(#[from] StrictError),
    /// Built otherwise.
    #[error(transparent)]
    Shape(#[from] ShapeError),
}

#[cfg(test)]
mod tests {
    use super::{PlaceState, Position, word_key, word_key_of};
    use crate::sync::{ItemKind, RecordItem};
    use slingseal_words::Digest;

    fn position(source: u8, number: i64) -> Position {
        Position { source: [source; 16], number, key: Digest::of(&number.to_be_bytes()) }
    }

    #[test]
    fn a_record_is_known_by_its_parts() {
        let (seal, record) = (b"seal".to_vec(), b"record".to_vec());
        let whole = RecordItem { seal: seal.clone(), record: Some(record.clone()) };
        let bare = RecordItem { seal: seal.clone(), record: None };
        let parts = [Digest::of(&seal), Digest::of(&record)];
        assert_eq!(word_key_of(ItemKind::Record, &whole.to_bytes()), Ok(word_key(ItemKind::Record, &parts)));
        let one = word_key(ItemKind::Record, &parts[..1]);
        assert_eq!(word_key_of(ItemKind::Record, &bare.to_bytes()), Ok(one));
        assert_ne!(one, word_key(ItemKind::Inspection, &parts[..1]), "a kind is part of the key");
        // Behind the only spelling there is room for nothing.
        let mut longer = bare.to_bytes();
        longer.push(0);
        assert!(word_key_of(ItemKind::Record, &longer).is_err());
        assert!(word_key_of(ItemKind::Record, b"").is_err());
    }

    #[test]
    fn what_was_read_is_kept_and_forgotten_with_its_trust() {
        let (trust, other) = (Digest::of(b"these"), Digest::of(b"others"));
        let mut places = PlaceState::default();
        let mut state = places.of([1; 16], trust);
        assert!(state.read(position(9, 5)) && state.read(position(3, 1)) && state.read(position(9, 8)));
        assert_eq!(state.positions, [position(3, 1), position(9, 8)]);
        places.keep(state.clone());
        let mut places = PlaceState::parse(&places.to_bytes()).unwrap();
        assert_eq!(places.of([1; 16], trust), state);
        assert_eq!(places.of([1; 16], other).positions, [], "who trusts others reads all again");
        assert_eq!(places.of([2; 16], trust).positions, []);
        for server in 2..20 {
            places.keep(places.of([server; 16], trust));
        }
        assert_eq!(places.of([1; 16], trust).positions, [], "so many places and no more");
        assert!(PlaceState::parse(&places.to_bytes()).is_ok(), "what is written is read");
        places.forget(&[19; 16]);
        assert!(PlaceState::parse(b"\x9f\xff").is_err());
    }

    #[test]
    fn no_more_desks_than_are_read_again() {
        let mut state = PlaceState::default().of([1; 16], Digest::of(b""));
        for number in 0..10_000u32 {
            let mut source = [0; 16];
            source[..4].copy_from_slice(&number.to_be_bytes());
            assert!(state.read(Position { source, ..position(0, 1) }));
        }
        assert!(!state.read(position(255, 1)));
        let mut places = PlaceState::default();
        for server in 0..8 {
            state.server = [server; 16];
            places.keep(state.clone());
        }
        assert_eq!(PlaceState::parse(&places.to_bytes()), Ok(places));
    }
}
