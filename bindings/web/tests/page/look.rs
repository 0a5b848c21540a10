//! What a screen looks like, what a camera sees, what a log says.

use std::path::Path;

use serde_json::{Value, json};
use slingseal_qr::write;

use crate::browser::Browser;

const WIDE: usize = 1280;
const HIGH: usize = 720;
/// Frames of each text: the browser shows the film again and again, ten frames a second.
const FRAMES: usize = 10;

/// A film in which each text's code stands for a second (YUV4MPEG2, 4:2:0).
pub fn film(texts: &[String]) -> Vec<u8> {
    let mut film = format!("YUV4MPEG2 W{WIDE} H{HIGH} F10:1 Ip A1:1 C420jpeg\n").into_bytes();
    for text in texts {
        let code = write(text).expect("a text fits");
        let size = code.size() as usize;
        let scale = 560 / size;
        let (left, top) = ((WIDE - size * scale) / 2, (HIGH - size * scale) / 2);
        let mut grey = vec![205u8; WIDE * HIGH];
        for y in 0..size * scale {
            for x in 0..size * scale {
                let dark = code.is_dark((x / scale) as u32, (y / scale) as u32);
                grey[(top + y) * WIDE + left + x] = if dark { 40 } else { 205 };
            }
        }
        for _ in 0..FRAMES {
            film.extend_from_slice(b"FRAME\n");
            film.extend_from_slice(&grey);
            film.extend(std::iter::repeat_n(128u8, WIDE * HIGH / 2));
        }
    }
    film
}

/// Every visible text against what is painted under it; keys' heights; what is wider than the screen.
const FAULTS: &str = r#"(() => {
  const number = (text) => text.match(/[\d.]+/g).map(Number);
  const light = ([r, g, b]) => [r, g, b].map((c) => (c /= 255) <= 0.03928 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4)
    .reduce((sum, c, at) => sum + c * [0.2126, 0.7152, 0.0722][at], 0);
  const under = (node) => {
    for (; node; node = node.parentElement) {
      const colour = number(getComputedStyle(node).backgroundColor);
      if ((colour[3] ?? 1) > 0.8) return colour;
    }
    return [255, 255, 255];
  };
  const faults = [];
  if (document.documentElement.scrollWidth > innerWidth) faults.push(`wider than the screen: ${document.documentElement.scrollWidth}`);
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let text; (text = walker.nextNode());) {
    const node = text.parentElement;
    if (!text.textContent.trim() || !node.checkVisibility() || ["SCRIPT", "STYLE", "NOSCRIPT"].includes(node.tagName)) continue;
    const [one, other] = [light(number(getComputedStyle(node).color)), light(under(node))].sort((a, b) => b - a);
    const ratio = (one + 0.05) / (other + 0.05);
    if (ratio < 7 && !node.closest("[disabled]")) faults.push(`${ratio.toFixed(1)}:1 ${node.tagName} ${text.textContent.trim().slice(0, 40)}`);
    const box = node.getBoundingClientRect();
    if (box.right > innerWidth + 1) faults.push(`cut off: ${text.textContent.trim().slice(0, 40)}`);
  }
  for (const key of document.querySelectorAll(".key")) {
    if (key.checkVisibility() && key.getBoundingClientRect().height < 75) faults.push(`a key of ${key.getBoundingClientRect().height} px`);
  }
  return faults;
})()"#;

/// Nothing wrong with the screen as it stands, nor with letters of twice the size; its picture is left.
pub fn fits(browser: &mut Browser, picture: &Path) {
    for size in ["", "200%"] {
        browser.js(&format!(
            "document.documentElement.style.fontSize = '{}'",
            if size.is_empty() { "" } else { "36px" }
        ));
        let faults = browser.js(FAULTS);
        assert_eq!(faults, json!([]), "{} {size}", picture.display());
        if size.is_empty() {
            let shot = browser.call("Page.captureScreenshot", &json!({ "format": "png" }));
            let data = crate::cast::unbase64(shot["data"].as_str().expect("a picture"));
            std::fs::write(picture, data).expect("a file");
        }
    }
    browser.js("document.documentElement.style.fontSize = ''");
}

/// Every address that a page asked for, in a browser's log of its network, a line an event. What the browser asks for by itself (its
/// updates, the time) has no origin, and no page can keep it from that.
pub fn asked(log: &Path) -> Vec<Value> {
    let text = std::fs::read_to_string(log).expect("the log is there");
    assert!(text.contains("\"events\""), "the log has no events");
    let by_a_page =
        |line: &&str| line.contains("\"initiator\":\"") && !line.contains("\"initiator\":\"not an origin\"");
    let mut urls = Vec::new();
    for line in text.lines().filter(by_a_page) {
        for part in line.split("\"url\":\"").skip(1) {
            let url = part.split('"').next().unwrap_or_default();
            // Pictures and workers that the page makes itself.
            if !["data:", "blob:"].iter().any(|own| url.starts_with(own)) {
                urls.push(json!(url));
            }
        }
    }
    urls
}
