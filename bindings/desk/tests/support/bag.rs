//! How a bag is inspected one answer a line.

/// The lines that find a sound bag sound, from a card on: each count and choice, and each card good.
pub fn sound(from: usize) -> Vec<String> {
    let mut lines = Vec::new();
    for card in from..=38 {
        let mut value = |point: &str, value: &str| lines.push(format!("value {point} {value}"));
        match card {
            2 => value("tag.read.weighed", "weighed"),
            6 => value("grab.links.link", "3"),
            8 => value("chain.through.passes", "1"),
            14..=37 => {
                let side = (card - 14) / 6 + 1;
                match (card - 14) % 6 {
                    4 => value(&format!("side-{side}.lacing.crossing"), "1"),
                    5 => {
                        value(&format!("side-{side}.knot.parts-left"), "4");
                        value(&format!("side-{side}.knot.parts-right"), "4");
                    }
                    _ => {}
                }
            }
            _ => {}
        }
        lines.push("good".into());
    }
    lines
}
