use super::{Claims, Kind, Limits, Reader, ShapeError, StrictError, Writer, check};
use slingseal_catalogue::Saying;
use slingseal_words::KeyId;

/// COSE algorithm of Ed25519, fully specified (RFC 9864 §2.2).
const ED25519: i64 = -19;
const ALGORITHM: i64 = 1;
const KEY_ID: i64 = 4;
/// The `kcwt` header of RFC 9528 §9.6: a CWT that holds the signer's key, embedded as it stands.
const CREDENTIAL: i64 = 13;

/// The protected header.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Header<'b> {
    /// Whose key signed, where it is looked up.
    pub key_id: Option<KeyId>,
    /// The signer's credential, where it travels along: the bytes of a COSE_Sign1.
    pub credential: Option<&'b [u8]>,
}

/// A COSE_Sign1, taken apart and not yet verified. It borrows the received bytes: what is verified is what came.
///
/// ```cddl
/// message   = [ protected: bstr .cbor header, unprotected: {}, payload: bstr, signature: bstr .size 64 ]
/// header    = { 1: -19, ? 4: bstr .size 4, ? 13: message }
/// ```
#[derive(Clone, Copy, Debug)]
pub struct Sign1<'b> {
    /// The protected header, decoded.
    pub header: Header<'b>,
    /// The payload: one strict CBOR item.
    pub payload: &'b [u8],
    /// The signature.
    pub signature: [u8; 64],
    protected: &'b [u8],
}

/// Why bytes are not a signed message.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sign1Error {
    /// Not deterministic CBOR.
    Strict(StrictError),
    /// Not built as a signed message.
    Shape(ShapeError),
}

impl Sign1Error {
    /// One line: what is wrong; what to do.
    pub fn saying(&self) -> Saying {
        match self {
            Self::Strict(error) => error.saying(),
            Self::Shape(error) => error.saying(),
        }
    }
}

slingseal_catalogue::error_by_saying!(Sign1Error);

impl From<StrictError> for Sign1Error {
    fn from(error: StrictError) -> Self {
        Self::Strict(error)
    }
}

impl From<ShapeError> for Sign1Error {
    fn from(error: ShapeError) -> Self {
        Self::Shape(error)
    }
}

impl<'b> Sign1<'b> {
    /// Takes a message apart. Strict before all else: the whole, the protected header and the payload each are one
    /// deterministic item.
    pub fn parse(bytes: &'b [u8], limits: Limits) -> Result<Self, Sign1Error> {
        check(bytes, limits)?;
        let mut reader = Reader::new(bytes);
        reader.array(4, "outer list")?;
        let protected = reader.bytes("protected header")?;
        reader.map("unprotected header", |_, _| Ok(false))?;
        let payload = reader.bytes("payload")?;
        let signature = reader.fixed("signature")?;
        check(protected, limits)?;
        check(payload, limits)?;
        Ok(Self { header: header(protected)?, payload, signature, protected })
    }

    /// The same of a word that may be marked unsigned: a list is a signed message, and what is no list is bare content.
    pub(crate) fn parse_signed(bytes: &'b [u8], limits: Limits) -> Result<Option<Self>, Sign1Error> {
        Reader::new(bytes).at_array().then(|| Self::parse(bytes, limits)).transpose()
    }

    /// The bytes that the signature covers, for a message of `kind`.
    pub fn to_be_signed(&self, kind: Kind) -> Vec<u8> {
        signature_structure(kind, self.protected, self.payload)
    }
}

fn header(protected: &[u8]) -> Result<Header<'_>, ShapeError> {
    let mut header = Header::default();
    let mut algorithm = None;
    Reader::new(protected).map("protected header", |key, reader| {
        match key {
            ALGORITHM => algorithm = Some(reader.int("algorithm")?),
            KEY_ID => header.key_id = Some(KeyId(reader.fixed("key id")?)),
            CREDENTIAL => header.credential = Some(reader.raw("credential")?),
            _ => return Ok(false),
        }
        Ok(true)
    })?;
    // The algorithm is never a choice of the message: one value passes.
    if algorithm == Some(ED25519) { Ok(header) } else { Err(ShapeError("algorithm")) }
}

fn protected(header: Header<'_>) -> Vec<u8> {
    let mut writer = Writer::new();
    writer.map(1 + usize::from(header.key_id.is_some()) + usize::from(header.credential.is_some()));
    writer.int(ALGORITHM).int(ED25519);
    if let Some(key_id) = header.key_id {
        writer.int(KEY_ID).bytes(&key_id.0);
    }
    if let Some(credential) = header.credential {
        writer.int(CREDENTIAL).raw(credential);
    }
    writer.into_bytes()
}

/// `Sig_structure` of RFC 9052 §4.4.
fn signature_structure(kind: Kind, protected: &[u8], payload: &[u8]) -> Vec<u8> {
    let mut writer = Writer::new();
    writer.array(4).text("Signature1").bytes(protected).bytes(&kind.namespace()).bytes(payload);
    writer.into_bytes()
}

/// The bytes to be signed for a message that is being made.
pub fn to_be_signed(kind: Kind, header: Header<'_>, payload: &[u8]) -> Vec<u8> {
    signature_structure(kind, &protected(header), payload)
}

/// Puts a signed message together.
pub fn assemble(header: Header<'_>, payload: &[u8], signature: &[u8; 64]) -> Vec<u8> {
    let mut writer = Writer::new();
    writer.array(4).bytes(&protected(header)).map(0).bytes(payload).bytes(signature);
    writer.into_bytes()
}

/// A holder's message before it is signed: the credential rides in the protected header, so that one code is verified
/// by anyone who holds the authority's key.
#[derive(Clone, Debug)]
pub struct Unsigned {
    kind: Kind,
    credential: Vec<u8>,
    payload: Vec<u8>,
}

impl Unsigned {
    /// Prepares a message of `kind` under a credential.
    pub fn prepare(kind: Kind, credential: &[u8], claims: &Claims<'_>) -> Self {
        Self { kind, credential: credential.to_owned(), payload: claims.to_bytes() }
    }

    fn header(&self) -> Header<'_> {
        Header { key_id: None, credential: Some(&self.credential) }
    }

    /// What is to be signed.
    pub fn to_be_signed(&self) -> Vec<u8> {
        to_be_signed(self.kind, self.header(), &self.payload)
    }

    /// The message with its signature.
    pub fn finish(&self, signature: &[u8; 64]) -> Vec<u8> {
        assemble(self.header(), &self.payload, signature)
    }
}

#[cfg(test)]
mod tests {
    use super::{Header, Kind, Limits, Sign1, assemble, to_be_signed};
    use slingseal_words::KeyId;

    #[test]
    fn goes_together_and_apart() {
        let header = Header { key_id: Some(KeyId([7; 4])), credential: None };
        let message = assemble(header, &[0xa0], &[9; 64]);
        let parsed = Sign1::parse(&message, Limits::CODE).unwrap();
        assert_eq!((parsed.header, parsed.payload, parsed.signature), (header, &[0xa0][..], [9; 64]));
        assert_eq!(parsed.to_be_signed(Kind::Seal), to_be_signed(Kind::Seal, header, &[0xa0]));
        assert_ne!(parsed.to_be_signed(Kind::Seal), parsed.to_be_signed(Kind::Tag));
    }

    #[test]
    fn the_message_does_not_choose_its_algorithm() {
        let message = assemble(Header::default(), &[0xa0], &[9; 64]);
        // [ h'a10132', …: -19 is 0x32; -8 (EdDSA, deprecated) is 0x27.
        for (at, byte) in message.iter().enumerate() {
            if *byte == 0x32 {
                let mut other = message.clone();
                other[at] = 0x27;
                assert!(Sign1::parse(&other, Limits::CODE).is_err());
                return;
            }
        }
        panic!("the algorithm was not found");
    }
}
