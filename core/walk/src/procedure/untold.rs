//! What a file does not say in a language that it says something in: told to its writer, and no fault, since it is then said in English.

use std::collections::BTreeSet;

use super::shape::{KindShape, PointShape, Procedure, Said};

impl Procedure {
    /// A line for each text that a language lacks in which the file says anything: `fr: motion of card leg.trace`.
    pub fn untold(&self) -> Vec<String> {
        let mut all: Vec<(String, &Said)> = vec![("title".into(), &self.title)];
        all.extend(self.about.iter().map(|about| ("about".into(), about)));
        for round in &self.rounds {
            for column in &round.columns {
                let name = format!("words of {}.{}", round.name, column.name);
                all.extend(column.words.iter().map(|word| (name.clone(), word)));
            }
            // Values that stand for themselves, such as numbers, are the same in every language.
            let own = round.words.iter().zip(&round.values).filter(|(word, value)| word.english != **value);
            all.extend(own.map(|(word, _)| (format!("words of {}", round.name), word)));
        }
        for station in &self.stations {
            all.push((format!("title of station {}", station.id), &station.title));
            for card in &station.cards {
                let name = format!("card {}.{}", station.id, card.id);
                all.extend([
                    (format!("title of {name}"), &card.title),
                    (format!("motion of {name}"), &card.motion),
                ]);
                for point in &card.points {
                    texts_of(&format!("point {}.{}.{}", station.id, card.id, point.id), point, &mut all);
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
                let line = format!("{code}: {name}");
                if said.told_in(code).is_none() && !lines.contains(&line) {
                    lines.push(line);
                }
            }
        }
        lines
    }
}

fn texts_of<'p>(name: &str, point: &'p PointShape, all: &mut Vec<(String, &'p Said)>) {
    // Where a sentence is missing, the prompt is spoken.
    all.push((format!("prompt of {name}"), &point.prompt));
    all.extend(point.deficiencies.iter().map(|known| (format!("deficiencies of {name}"), &known.said)));
    if let KindShape::Choice { options, .. } = &point.kind {
        all.extend(options.iter().map(|option| (format!("options of {name}"), option)));
    }
}
