//! The surface: one room for what comes in, one for what is answered, and a few functions over them. `page/slingseal.js` and
//! `slingseal.d.ts` say it in the words of JavaScript.

use serde_json::{Map, Value, json};
use slingseal_message::movement::{MovementEvent, RefusalCause};
use slingseal_message::trust::CheckPage;
use slingseal_qr::{read_picture, write};
use slingseal_words::{Language, LoadNumber, Note, Time};

use crate::device::{Device, DeviceError};
use crate::frame::FrameReader;
use crate::views::{harmless, stamp};
use crate::words::words;

/// Everything behind one module: a device, a reader, and the codes that the reader passes over.
#[derive(Debug, Default)]
pub struct Surface {
    device: Device,
    reader: FrameReader,
    known: Vec<String>,
    /// The language of the last call that named one.
    language: Language,
}

impl Surface {
    /// Answers one call: `{"call": NAME, …}`, as `slingseal.d.ts` describes each.
    pub fn call(&mut self, input: &[u8]) -> String {
        let result = self.called(input);
        answer(result, self.language)
    }

    fn called(&mut self, input: &[u8]) -> Result<Value, DeviceError> {
        let input: Map<String, Value> = serde_json::from_slice(input)
            .map_err(|_| DeviceError::Call("a call is one JSON object in UTF-8; see slingseal.d.ts"))?;
        if let Some(language) = input.get("language").and_then(Value::as_str) {
            self.language = Language::of_locale(language);
        }
        let language = self.language;
        match input.get("call").and_then(Value::as_str).unwrap_or_default() {
            "judge" => self.device.judge(&texts(&input, "shown")?, now(&input)?, language),
            "open" => {
                let text = input.get("text").and_then(Value::as_str);
                let text = text.ok_or(DeviceError::Call("open wants a text"))?;
                let own = input.get("own").and_then(Value::as_bool).unwrap_or_default();
                self.device.take_in(text, now(&input)?, language, own)
            }
            "report" => self.report(&input, language),
            "device" => self.begin_device(&input),
            "known" => {
                self.known = texts(&input, "texts")?;
                Ok(json!({}))
            }
            "words" => Ok(Value::Object(
                words(language).into_iter().map(|(name, text)| (name, text.into())).collect(),
            )),
            "code" => {
                let text = input.get("text").and_then(Value::as_str).unwrap_or_default();
                let code = write(text).map_err(|_| DeviceError::Call("this text does not fit a code"))?;
                Ok(json!({ "svg": code.to_svg().trim_end(), "version": code.version() }))
            }
            _ => Err(DeviceError::Call("there is no such call; see slingseal.d.ts")),
        }
    }

    /// What became of the load that was judged last, as a code for a device of the unit.
    fn report(&mut self, input: &Map<String, Value>, language: Language) -> Result<Value, DeviceError> {
        let text = |name: &str| {
            input.get(name).and_then(Value::as_str).map(str::trim).filter(|text| !text.is_empty())
        };
        let load = LoadNumber::new(text("load").unwrap_or_default());
        let load = load.map_err(|error| DeviceError::Unreported(error.saying()))?;
        let cause = match text("cause") {
            None => None,
            Some(word) => Some(
                word.parse::<RefusalCause>()
                    .ok()
                    .ok_or(DeviceError::Call("there is no such cause; see slingseal.d.ts"))?,
            ),
        };
        let event = MovementEvent::of(text("event").unwrap_or_default(), cause)
            .filter(|event| !matches!(event, MovementEvent::Returned))
            .ok_or(DeviceError::Call("an event, with a cause where it is refused; see slingseal.d.ts"))?;
        let note = text("note")
            .map(Note::new)
            .transpose()
            .map_err(|error| DeviceError::Unreported(error.saying()))?;
        let device = text("device")
            .and_then(sixteen)
            .ok_or(DeviceError::Call("a device goes by 16 random bytes, in 32 hexadecimal digits"))?;
        let (text, movement) = self.device.report(&load, event, note, device, now(input)?)?;
        let code = write(&text).map_err(|_| DeviceError::Call("this text does not fit a code"))?;
        Ok(json!({
            "kind": "report",
            "text": text,
            "load": movement.load.as_str(),
            "event": event.word(),
            "what": event.say(language),
            "at": stamp(movement.issued),
            "svg": code.to_svg().trim_end(),
            "version": code.version(),
        }))
    }

    /// A device by its parts: what another program trusts and holds.
    fn begin_device(&mut self, input: &Map<String, Value>) -> Result<Value, DeviceError> {
        self.device = Device::default();
        let mut device = Device::default();
        let authorities = input.get("authorities").and_then(Value::as_array);
        for authority in authorities.into_iter().flatten().filter_map(Value::as_object) {
            let card = authority.get("card").and_then(Value::as_str);
            device.trust(card.ok_or(DeviceError::Call("an authority wants a card"))?)?;
            for roster in texts(authority, "rosters")? {
                device.take_in(&roster, now(input)?, Language::English, false)?;
            }
        }
        for text in texts(input, "holds")? {
            device.hold(&text)?;
        }
        self.device = device;
        Ok(json!({}))
    }

    /// Begins with what a check page carries: the bytes of its `CP1` message.
    pub fn begin(&mut self, bytes: &[u8]) -> String {
        let language = self.language;
        // Who cannot begin trusts nobody: what an earlier page said is no answer for a later one.
        self.device = Device::default();
        let begun = Device::begin(bytes).and_then(|device| {
            let opened = CheckPage::open(bytes)?;
            self.device = device;
            let credential = &opened.leader.credential;
            let authorities: Vec<Value> = opened
                .trusted
                .iter()
                .map(|authority| {
                    json!({
                        "name": authority.name.to_string(),
                        "fingerprint": authority.key.fingerprint(),
                        "roster_until": authority.roster.as_ref().map(|roster| stamp(roster.expires)),
                    })
                })
                .collect();
            Ok(json!({
                "thumbprint": CheckPage::thumbprint(bytes),
                "leader": credential.holder.to_string(),
                "made": stamp(opened.page.made),
                "until": stamp(opened.page.until),
                "authorities": authorities,
                "words": opened.page.words.len(),
            }))
        });
        answer(begun, language)
    }

    /// Reads one camera frame of four bytes a pixel.
    pub fn frame(&mut self, width: usize, height: usize, rgba: &[u8]) -> String {
        match self.reader.take(width, height, rgba, &self.known) {
            Ok(text) => json!({ "ok": { "texts": text.into_iter().collect::<Vec<_>>() } }).to_string(),
            Err(error) => failed(&error.to_string()),
        }
    }

    /// Reads a photograph that was opened already, four bytes a pixel.
    pub fn still(&mut self, width: usize, height: usize, rgba: &[u8]) -> String {
        match FrameReader::still(width, height, rgba) {
            Ok(texts) => json!({ "ok": { "texts": texts } }).to_string(),
            Err(error) => failed(&error.to_string()),
        }
    }

    /// Reads every code of a picture file, PNG or JPEG.
    pub fn picture(&mut self, file: &[u8]) -> String {
        match read_picture(file) {
            Ok(texts) => json!({ "ok": { "texts": texts } }).to_string(),
            Err(error) => failed(&error.to_string()),
        }
    }
}

fn answer(result: Result<Value, DeviceError>, language: Language) -> String {
    match result {
        Ok(value) => json!({ "ok": harmless(value) }).to_string(),
        Err(error) => failed(&error.saying().say(language)),
    }
}

fn failed(message: &str) -> String {
    harmless(json!({ "error": message })).to_string()
}

fn texts(input: &Map<String, Value>, name: &str) -> Result<Vec<String>, DeviceError> {
    let Some(given) = input.get(name) else { return Ok(Vec::new()) };
    let texts = given.as_array().and_then(|texts| {
        texts.iter().map(|text| text.as_str().map(str::to_owned)).collect::<Option<Vec<String>>>()
    });
    texts.ok_or(DeviceError::Call("a list of texts is a list of texts"))
}

fn sixteen(text: &str) -> Option<[u8; 16]> {
    let digits = (text.len() == 32 && text.bytes().all(|digit| digit.is_ascii_hexdigit())).then_some(text)?;
    Some(u128::from_str_radix(digits, 16).ok()?.to_be_bytes())
}

fn now(input: &Map<String, Value>) -> Result<Time, DeviceError> {
    let now = input.get("now").and_then(Value::as_i64);
    now.map(Time::from_unix).ok_or(DeviceError::Call("now is wanted: whole seconds since 1970, UTC"))
}

/// What the module exports. Nothing is dereferenced here: the host writes into a vector whose address it was told.
#[cfg(target_arch = "wasm32")]
mod exports {
    use std::cell::RefCell;

    use super::Surface;

    thread_local! {
        static SURFACE: RefCell<Surface> = RefCell::default();
        static ROOM: RefCell<Vec<u8>> = const { RefCell::new(Vec::new()) };
        static ANSWER: RefCell<Vec<u8>> = const { RefCell::new(Vec::new()) };
    }

    fn answered(act: impl FnOnce(&mut Surface, &[u8]) -> String) -> u32 {
        let text = SURFACE.with_borrow_mut(|surface| ROOM.with_borrow(|room| act(surface, room)));
        ANSWER.set(text.into_bytes());
        ANSWER.with_borrow(|answer| answer.len() as u32)
    }

    /// Makes room for so many bytes, and says where.
    #[unsafe(no_mangle)]
    pub extern "C" fn room(length: u32) -> u32 {
        ROOM.with_borrow_mut(|room| {
            room.clear();
            room.resize(length as usize, 0);
            room.as_ptr() as usize as u32
        })
    }

    /// Where the answer stands.
    #[unsafe(no_mangle)]
    pub extern "C" fn answer() -> u32 {
        ANSWER.with_borrow(|answer| answer.as_ptr() as usize as u32)
    }

    /// Answers the call in the room; how many bytes the answer has.
    #[unsafe(no_mangle)]
    pub extern "C" fn call() -> u32 {
        answered(Surface::call)
    }

    /// Begins with the check page in the room.
    #[unsafe(no_mangle)]
    pub extern "C" fn begin() -> u32 {
        answered(Surface::begin)
    }

    /// Reads the frame in the room.
    #[unsafe(no_mangle)]
    pub extern "C" fn frame(width: u32, height: u32) -> u32 {
        answered(|surface, room| surface.frame(width as usize, height as usize, room))
    }

    /// Reads the opened photograph in the room.
    #[unsafe(no_mangle)]
    pub extern "C" fn still(width: u32, height: u32) -> u32 {
        answered(|surface, room| surface.still(width as usize, height as usize, room))
    }

    /// Reads the picture file in the room.
    #[unsafe(no_mangle)]
    pub extern "C" fn picture() -> u32 {
        answered(Surface::picture)
    }
}
