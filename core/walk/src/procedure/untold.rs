//! What a file does not say in a language that it says something in: told to its writer, and no fault, since it is then said in English.

use std::collections::BTreeSet;

use slingseal_catalogue::{Saying, tags as words};

use super::shape::{KindShape, PointShape, Procedure, Said};

impl Procedure {
    /// A line for each text that a language lacks in which the file says anything: `fr: motion of card leg.trace`.
    pub fn untold(&self) -> Vec<Saying> {
        let mut all: Vec<(Saying, &Said)> = vec![(words::ChangedTitle.into(), &self.title)];
        all.extend(self.about.iter().map(|about| (words::ChangedAbout.into(), about)));
        for round in &self.rounds {
            for column in &round.columns {
                let of = format!("{}.{}", round.name, column.name);
                let name = Saying::from(words::UntoldWords { of });
                all.extend(column.words.iter().map(|word| (name.clone(), word)));
            }
            // Values that stand for themselves, such as numbers, are the same in every language.
            let own = round.words.iter().zip(&round.values).filter(|(word, value)| word.english != **value);
            all.extend(own.map(|(word, _)| (words::UntoldWords { of: &round.name }.into(), word)));
        }
        for station in &self.stations {
            all.push((words::UntoldStation { id: &station.id }.into(), &station.title));
            for card in &station.cards {
                let name = words::ChangedCard { id: format!("{}.{}", station.id, card.id) }.saying();
                all.extend([
                    (words::UntoldTitle { of: &name }.into(), &card.title),
                    (words::UntoldMotion { of: &name }.into(), &card.motion),
                ]);
                for point in &card.points {
                    let id = format!("{}.{}.{}", station.id, card.id, point.id);
                    texts_of(&words::ChangedPoint { id }.saying(), point, &mut all);
                }
            }
        }
        // A number is the same in every language.
        all.retain(|(_, said)| said.english.chars().any(char::is_alphabetic));
        let codes: BTreeSet<&str> =
            all.iter().flat_map(|(_, said)| said.told.iter().map(|(code, _)| *code)).collect();
        let mut lines = Vec::new();
        for code in codes {
            for (name, said) in &all {
                let line = words::UntoldIn { code, what: name }.saying();
                if said.told_in(code).is_none() && !lines.contains(&line) {
                    lines.push(line);
                }
            }
        }
        lines
    }
}

fn texts_of<'p>(name: &Saying, point: &'p PointShape, all: &mut Vec<(Saying, &'p Said)>) {
    // Where a sentence is missing, the prompt is spoken.
    all.push((words::UntoldPrompt { of: name }.into(), &point.prompt));
    all.extend(
        point.deficiencies.iter().map(|known| (words::UntoldDeficiencies { of: name }.into(), &known.said)),
    );
    if let KindShape::Choice { options, .. } = &point.kind {
        all.extend(options.iter().map(|option| (words::UntoldOptions { of: name }.into(), option)));
    }
}
