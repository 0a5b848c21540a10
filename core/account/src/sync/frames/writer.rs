use raptorq::{EncodingPacket, SourceBlockEncoder};

use super::{DIGEST, FRAME, FrameError, MOST, NUMBERS, SYMBOL, check_sum, id_of, parameters, symbols};
use slingseal_message::envelope::{Kind, wrap};
use slingseal_words::Digest;

/// Makes the frames of one bundle.
#[derive(Debug)]
pub struct FrameWriter {
    id: [u8; 8],
    length: u32,
    source: Vec<EncodingPacket>,
    encoder: SourceBlockEncoder,
}

impl FrameWriter {
    /// Prepares `content`.
    ///
    /// # Errors
    /// It is empty, or longer than 1 MiB.
    pub fn new(content: &[u8]) -> Result<Self, FrameError> {
        if content.is_empty() {
            return Err(FrameError::Empty);
        }
        if content.len() > MOST {
            return Err(FrameError::TooLong { bytes: content.len(), most: MOST });
        }
        let digest = Digest::of(content);
        let mut object = digest.as_bytes().to_vec();
        object.extend_from_slice(content);
        let length = u32::try_from(object.len()).expect("the bound above is far below 2^32");
        object.resize(symbols(DIGEST + content.len()) as usize * SYMBOL, 0);
        let encoder = SourceBlockEncoder::new(0, &parameters(DIGEST + content.len()), &object);
        Ok(Self { id: id_of(&digest), length, source: encoder.source_packets(), encoder })
    }

    /// How many frames are enough when none is lost.
    pub fn enough(&self) -> u32 {
        u32::try_from(self.source.len()).unwrap_or(u32::MAX)
    }

    /// Frame `number`; showing 0, 1, 2 … without end is best, since every one then says something new.
    pub fn frame(&self, number: u32) -> Vec<u8> {
        let number = number % NUMBERS;
        let symbol = match self.source.get(number as usize) {
            Some(packet) => packet.data().to_vec(),
            None => self
                .encoder
                .repair_packets(number - self.enough(), 1)
                .first()
                .map(|packet| packet.data().to_vec())
                .expect("one repair packet was asked for"),
        };
        let check = check_sum(&self.id, self.length, number, &symbol);
        let mut frame = Vec::with_capacity(FRAME);
        frame.extend_from_slice(&self.id);
        frame.extend_from_slice(&self.length.to_be_bytes());
        frame.extend(number.to_be_bytes().into_iter().skip(1));
        frame.extend_from_slice(&check.to_be_bytes());
        frame.extend_from_slice(&symbol);
        frame
    }

    /// Frame `number` as the text of its code: `BF1:` and Base45, 483 characters.
    pub fn text(&self, number: u32) -> String {
        wrap(Kind::BundleFrame, &self.frame(number))
    }
}
