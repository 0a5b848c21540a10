use super::ExamError;
use crate::walk::Event;
use slingseal_catalogue::faults as words;
use slingseal_message::envelope::{Limits, Reader, Writer, check};
use slingseal_words::{CallSign, Digest};

/// The most events of a run.
const MOST_EVENTS: usize = 20_000;

/// A run that ended, as it travels to whoever holds the list. Plain: a student needs no credential, and the instructor, who
/// stood beside, puts a name to it with the result, which names the sheet's SHA-256.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sheet {
    /// The lock's bytes as they were received.
    pub lock: Vec<u8>,
    /// The tag's bytes as they were received.
    pub tag: Vec<u8>,
    /// Who ran.
    pub student: CallSign,
    /// On which device.
    pub device: [u8; 16],
    /// What the run goes by there.
    pub walk: [u8; 16],
    /// The end of that device's journal when the run ended: number and digest, to be held against the journal.
    pub head: (u64, Digest),
    /// The walk's events as they were journalled: JSON.
    pub events: Vec<Vec<u8>>,
}

impl Sheet {
    /// Its bytes.
    ///
    /// ```cddl
    /// sheet = [1, lock: bstr, tag: bstr, student: tstr, device: bstr .size 16, walk: bstr .size 16,
    ///          head: uint, head-digest: bstr .size 32, events: [* bstr]]
    /// ```
    pub fn to_bytes(&self) -> Vec<u8> {
        let mut out = Writer::new();
        out.array(9).int(1).bytes(&self.lock).bytes(&self.tag).text(self.student.as_str());
        out.bytes(&self.device).bytes(&self.walk).int(i64::try_from(self.head.0).unwrap_or(i64::MAX));
        out.bytes(self.head.1.as_bytes()).array(self.events.len());
        for event in &self.events {
            out.bytes(event);
        }
        out.into_bytes()
    }

    /// Reads a sheet.
    ///
    /// # Errors
    /// Bytes that are no sheet.
    pub fn parse(bytes: &[u8]) -> Result<Self, ExamError> {
        check(bytes, Limits::FILE)?;
        let mut reader = Reader::new(bytes);
        reader.array(9, "sheet of a run")?;
        if reader.int("version of a sheet")? != 1 {
            return Err(slingseal_message::envelope::ShapeError("version of a sheet").into());
        }
        Ok(Self {
            lock: reader.bytes("examination key")?.to_vec(),
            tag: reader.bytes("tag")?.to_vec(),
            student: reader.line("student", CallSign::received)?,
            device: reader.fixed("device")?,
            walk: reader.fixed("run")?,
            head: (reader.small("journal head")?, Digest::from_bytes(reader.fixed("journal head")?)),
            events: reader.list(MOST_EVENTS, "events", |reader| Ok(reader.bytes("event")?.to_vec()))?,
        })
    }

    /// The events.
    ///
    /// # Errors
    /// One that cannot be read.
    pub fn read_events(&self) -> Result<Vec<Event>, ExamError> {
        let read = |body: &Vec<u8>| {
            serde_json::from_slice(body)
                .map_err(|error| ExamError::Run(words::RunEventDamaged { error: error.to_string() }.into()))
        };
        self.events.iter().map(read).collect()
    }
}
