//! How a load stands of which one seal is all that is here. Nothing that is kept is asked for it: it is judged ahead, beside the writer.

use super::verdicts::Verdicts;
use crate::AppError;
use crate::movements::flow::flow_row;
use slingseal_judgement::LoadWord;
use slingseal_message::trust::Trusted;
use slingseal_store::{FlowRow, Judged, LoadRow, Tx};

/// What the judgement says of a seal that stands alone, by the trust of one moment.
#[derive(Debug)]
pub(crate) struct Alone {
    pub(crate) judged: Judged,
    load: Option<LoadRow>,
    flow: Option<FlowRow>,
}

impl Alone {
    /// None where the word is no seal.
    pub(crate) fn of(word: &LoadWord, trusted: &Trusted) -> Option<Self> {
        word.seal()?;
        let (load, words) = (word.load(), std::slice::from_ref(word));
        let mut verdicts = Verdicts::of_words(load, [word.digest()], words, &[], trusted);
        let flow = flow_row(load, verdicts.latest, words, false, trusted);
        Some(Self { judged: verdicts.seals.remove(&word.digest())?, load: verdicts.load, flow })
    }

    /// Keeps how the load stands: of a load of which nothing else is here.
    pub(crate) fn keep(&self, tx: &Tx<'_>) -> Result<(), AppError> {
        if let Some(flow) = &self.flow {
            tx.put_flow(flow)?;
        }
        if let Some(load) = &self.load {
            tx.put_load(load)?;
        }
        Ok(())
    }
}
