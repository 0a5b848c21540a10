use super::{OURS, Reader, ShapeError, Writer};
use slingseal_words::Time;

const SUBJECT: i64 = 2;
const EXPIRES: i64 = 4;
const ISSUED: i64 = 6;
const CONFIRMATION: i64 = 8;
const SCOPE: i64 = 9;

/// The CWT claims (RFC 8392) that messages of every kind are made of; which are there depends on the kind.
///
/// ```cddl
/// claims = { ? 2: tstr, ? 4: uint, ? 6: uint, ? 8: { 1: cose-key }, ? 9: bstr, ? -65537: any }
/// cose-key = { 1: 1, -1: 6, -2: bstr .size 32 }    ; RFC 8747 cnf, RFC 9052 OKP, Ed25519
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Claims<'b> {
    /// Whom or what the message speaks of.
    pub subject: Option<&'b str>,
    /// Past this it does not hold.
    pub expires: Option<Time>,
    /// When it was made.
    pub issued: Option<Time>,
    /// The subject's Ed25519 public key.
    pub key: Option<[u8; 32]>,
    /// What the subject may do (the scope claim of RFC 9200).
    pub scope: Option<&'b [u8]>,
    /// What is ours: one encoded item.
    pub ours: Option<&'b [u8]>,
}

impl<'b> Claims<'b> {
    /// Reads claims from a payload that passed the strict check.
    pub fn parse(payload: &'b [u8]) -> Result<Self, ShapeError> {
        let mut claims = Self::default();
        Reader::new(payload).map("claims", |key, reader| {
            match key {
                SUBJECT => claims.subject = Some(reader.text("subject")?),
                EXPIRES => claims.expires = Some(reader.time("expiry")?),
                ISSUED => claims.issued = Some(reader.time("time of issue")?),
                CONFIRMATION => claims.key = Some(confirmation(reader)?),
                SCOPE => claims.scope = Some(reader.bytes("scope")?),
                OURS => claims.ours = Some(reader.raw("content")?),
                _ => return Ok(false),
            }
            Ok(true)
        })?;
        Ok(claims)
    }

    /// The claims of a statement on a subject, by whoever's credential stands in the header.
    pub fn statement(subject: &'b str, issued: Time, content: &'b [u8]) -> Self {
        Self { subject: Some(subject), issued: Some(issued), ours: Some(content), ..Self::default() }
    }

    /// Subject, time and content of a statement; `what` names the claims in the error.
    ///
    /// # Errors
    /// One of the three is missing, or another claim stands beside them.
    pub fn read_statement(self, what: &'static str) -> Result<(&'b str, Time, &'b [u8]), ShapeError> {
        match self {
            Self {
                subject: Some(subject),
                issued: Some(issued),
                ours: Some(content),
                expires: None,
                key: None,
                scope: None,
            } => Ok((subject, issued, content)),
            _ => Err(ShapeError(what)),
        }
    }

    /// The claims of a card by which a key says whose it is.
    pub fn card(subject: &'b str, issued: Time, key: [u8; 32]) -> Self {
        Self { subject: Some(subject), issued: Some(issued), key: Some(key), ..Self::default() }
    }

    /// Subject, time and key of a card; `what` names the claims in the error.
    ///
    /// # Errors
    /// One of the three is missing, or another claim stands beside them.
    pub fn read_card(self, what: &'static str) -> Result<(&'b str, Time, [u8; 32]), ShapeError> {
        match self {
            Self {
                subject: Some(subject),
                issued: Some(issued),
                key: Some(key),
                expires: None,
                scope: None,
                ours: None,
            } => Ok((subject, issued, key)),
            _ => Err(ShapeError(what)),
        }
    }

    /// The payload.
    pub fn to_bytes(&self) -> Vec<u8> {
        let present = [
            self.subject.is_some(),
            self.expires.is_some(),
            self.issued.is_some(),
            self.key.is_some(),
            self.scope.is_some(),
            self.ours.is_some(),
        ];
        let mut writer = Writer::new();
        writer.map(present.into_iter().filter(|there| *there).count());
        if let Some(subject) = self.subject {
            writer.int(SUBJECT).text(subject);
        }
        if let Some(expires) = self.expires {
            writer.int(EXPIRES).int(expires.unix());
        }
        if let Some(issued) = self.issued {
            writer.int(ISSUED).int(issued.unix());
        }
        if let Some(key) = self.key {
            writer.int(CONFIRMATION).map(1).int(1);
            writer.map(3).int(1).int(1).int(-1).int(6).int(-2).bytes(&key);
        }
        if let Some(scope) = self.scope {
            writer.int(SCOPE).bytes(scope);
        }
        if let Some(ours) = self.ours {
            writer.int(OURS).raw(ours);
        }
        writer.into_bytes()
    }
}

fn confirmation(reader: &mut Reader<'_>) -> Result<[u8; 32], ShapeError> {
    const PART: &str = "public key";
    let mut found = None;
    reader.map(PART, |key, reader| {
        if key != 1 {
            return Ok(false);
        }
        let (mut okp, mut ed25519) = (false, false);
        reader.map(PART, |key, reader| {
            match key {
                1 => okp = reader.int(PART)? == 1,
                -1 => ed25519 = reader.int(PART)? == 6,
                -2 => found = Some(reader.fixed(PART)?),
                _ => return Ok(false),
            }
            Ok(true)
        })?;
        if okp && ed25519 { Ok(true) } else { Err(ShapeError(PART)) }
    })?;
    found.ok_or(ShapeError(PART))
}

#[cfg(test)]
mod tests {
    use super::Claims;
    use crate::envelope::{Limits, ShapeError, check};
    use slingseal_words::Time;

    #[test]
    fn go_out_canonical_and_come_back() {
        let claims = Claims {
            subject: Some("Anvil 3"),
            expires: Some(Time::from_unix(1_800_000_000)),
            issued: Some(Time::from_unix(1_700_000_000)),
            key: Some([7; 32]),
            scope: Some(&[1]),
            ours: Some(&[0x81, 0x01]),
        };
        let bytes = claims.to_bytes();
        assert_eq!(check(&bytes, Limits::CODE), Ok(()));
        assert_eq!(Claims::parse(&bytes), Ok(claims));
        assert_eq!(Claims::parse(&[0xa0]), Ok(Claims::default()));
        let at = Time::from_unix(7);
        let (card, statement) = (Claims::card("Anvil 3", at, [7; 32]), Claims::statement("KM-014", at, &[1]));
        assert_eq!(card.read_card("card"), Ok(("Anvil 3", at, [7; 32])));
        assert_eq!(statement.read_statement("void"), Ok(("KM-014", at, [1].as_slice())));
        for wrong in [claims, card, Claims { scope: Some(&[1]), ..statement }] {
            assert_eq!(wrong.read_statement("void"), Err(ShapeError("void")));
        }
        for wrong in [claims, statement, Claims { expires: Some(at), ..card }] {
            assert_eq!(wrong.read_card("card"), Err(ShapeError("card")));
        }
        assert!(Claims::parse(&[0xa1, 0x03, 0x01]).is_err(), "an unknown claim is refused");
        assert!(Claims::parse(&[0xa1, 0x06, 0x20]).is_err(), "a time before 1970 is refused");
    }
}
