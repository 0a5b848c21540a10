use slingseal_message::trust::Trusted;
use slingseal_words::{LoadNumber, Time};

use super::facts::Asked;
use super::piece::InspectionWord;
use super::time::{LatestTrusted, Memory, Speaker};
use super::word::LoadWord;

/// Everything that a judgement is made of. The order of the words never matters, and the same bytes twice count once.
#[derive(Clone, Copy, Debug)]
pub struct Evidence<'e> {
    /// Whom the device trusts, with the newest roster of each.
    pub trusted: &'e Trusted,
    /// The time by its clock.
    pub now: Time,
    /// The latest time proven by what is not among the words here: words of other loads, cards, what this device judged. The
    /// words here and the rosters are counted by themselves.
    pub latest_trusted: Option<&'e LatestTrusted>,
    /// Whether the device's memory is whole.
    pub memory: Memory,
    /// Every signed word known of the load; those that name another load are passed over.
    pub words: &'e [&'e LoadWord],
    /// Every signed inspection known of the pieces that its tags name; those of other pieces are passed over.
    pub pieces: &'e [InspectionWord],
}

impl<'e> Evidence<'e> {
    /// What a judgement that is kept is made of: no clock, no memory, nothing but the words. What time changes is asked of the
    /// kept answer when it is read.
    pub fn lasting(trusted: &'e Trusted, words: &'e [&'e LoadWord], pieces: &'e [InspectionWord]) -> Self {
        let (now, memory) = (Time::from_unix(0), Memory::Whole);
        Self { trusted, now, latest_trusted: None, memory, words, pieces }
    }

    /// The words of one load.
    pub(super) fn of<'s>(&'s self, load: &'s LoadNumber) -> impl Iterator<Item = &'e LoadWord> + 's {
        self.words.iter().copied().filter(move |word| word.load() == load)
    }

    /// When is asked, and what the words here and those beside them prove of time.
    pub fn asked(&self, beside: &[&LoadWord]) -> Asked<'e> {
        Asked {
            trusted: self.trusted,
            now: self.now,
            latest: self.latest_trusted(beside),
            memory: self.memory,
        }
    }

    /// The latest time that anything here proves, the words of `beside` included.
    fn latest_trusted(&self, beside: &[&LoadWord]) -> Option<LatestTrusted> {
        let rosters = self.trusted.iter().filter_map(|authority| {
            let roster = authority.roster.as_ref()?;
            Some(LatestTrusted { time: roster.issued, by: Speaker::Authority(authority.name.clone()) })
        });
        let words = self.words.iter().chain(beside).filter_map(|word| word.proves(self.trusted));
        rosters.chain(words).chain(self.latest_trusted.cloned()).max()
    }
}
