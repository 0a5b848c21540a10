//! The drawing on paper.

use std::fmt::Write as _;

use super::lines::{Drawing, Stroke};

impl Drawing {
    /// The drawing as SVG, black on nothing, so many units wide and high; what a card is about is drawn heavy. Colours are a page's own.
    pub fn svg(&self, marked: &[bool], size: u32) -> String {
        let mut out = format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{size}\" height=\"{size}\" viewBox=\"0 0 {side} {side}\" fill=\"none\" \
             stroke=\"currentColor\" stroke-linecap=\"round\" stroke-linejoin=\"round\">",
            side = Self::SIDE
        );
        let any = marked.contains(&true);
        for heavy in [false, true] {
            let lines = self.lines.iter().zip(marked.iter().chain(std::iter::repeat(&false)));
            for (line, _) in lines.filter(|(_, marked)| **marked == heavy) {
                let width = match (heavy, line.stroke) {
                    (true, Stroke::Plain) => 15,
                    (true, _) => 9,
                    (false, Stroke::Plain) => 6,
                    (false, _) => 3,
                };
                let faint = if any && !heavy { " stroke-opacity=\".55\"" } else { "" };
                let broken = if line.stroke == Stroke::Hidden { " stroke-dasharray=\"14 14\"" } else { "" };
                let name = if line.closed { "polygon" } else { "polyline" };
                let dots: Vec<String> = line.dots.iter().map(|dot| format!("{},{}", dot.x, dot.y)).collect();
                // writing to a String cannot fail
                let _ = write!(
                    out,
                    "<{name} points=\"{}\" stroke-width=\"{width}\"{faint}{broken}/>",
                    dots.join(" ")
                );
            }
        }
        out.push_str("</svg>");
        out
    }
}
