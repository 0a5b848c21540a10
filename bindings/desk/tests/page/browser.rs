//! A real headless Chromium, driven over its own debugging protocol.

use std::io::{BufRead, BufReader};
use std::net::TcpStream;
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::time::Duration;

use serde_json::{Value, json};
use tungstenite::{Message, WebSocket};

/// How often something is looked for before the test gives up, and how long it waits between.
const TRIES: u32 = 300;
const PAUSE: Duration = Duration::from_millis(100);

pub struct Browser {
    child: Child,
    socket: WebSocket<TcpStream>,
    session: Option<String>,
    number: u64,
    _profile: tempfile::TempDir,
}

impl Drop for Browser {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

impl Browser {
    /// Starts it with more switches, on an empty profile.
    pub fn start(more: &[&str]) -> Self {
        let profile = tempfile::tempdir().unwrap();
        let mut command = Command::new("chromium");
        command
            .args(["--headless=new", "--disable-gpu", "--no-first-run", "--remote-debugging-port=0"])
            .arg(format!("--user-data-dir={}", profile.path().display()))
            .args(more)
            .arg("about:blank");
        if rustix::process::getuid().is_root() {
            command.arg("--no-sandbox");
        }
        let mut child = command.stdout(Stdio::null()).stderr(Stdio::piped()).spawn().expect(
            "chromium is wanted for this test; tests/all installs it (Debian: apt-get install chromium)",
        );
        let mut lines = BufReader::new(child.stderr.take().unwrap()).lines();
        let url = lines
            .by_ref()
            .find_map(|line| line.ok()?.split_once("DevTools listening on ").map(|(_, url)| url.to_owned()))
            .expect("chromium says where it listens");
        // What it says later must not fill the pipe.
        std::thread::spawn(move || lines.for_each(drop));
        let place = url.trim_start_matches("ws://").split('/').next().unwrap();
        let stream = TcpStream::connect(place).unwrap();
        stream.set_read_timeout(Some(Duration::from_secs(60))).unwrap();
        let (socket, _) = tungstenite::client(url.as_str(), stream).unwrap();
        let mut browser = Self { child, socket, session: None, number: 0, _profile: profile };
        let target = browser.call("Target.createTarget", &json!({ "url": "about:blank" }));
        let attach = json!({ "targetId": target["targetId"], "flatten": true });
        let session = browser.call("Target.attachToTarget", &attach);
        browser.session = Some(session["sessionId"].as_str().unwrap().to_owned());
        browser.call("Page.enable", &json!({}));
        browser
    }

    /// Lets it end by itself, so that its own log is whole.
    #[allow(dead_code, reason = "not every test reads the log")]
    pub fn close(mut self) {
        self.session = None;
        let _ = self.tried("Browser.close", &json!({}));
        let _ = self.child.wait();
    }

    pub fn call(&mut self, method: &str, parameters: &Value) -> Value {
        self.tried(method, parameters).unwrap_or_else(|error| panic!("{method}: {error}"))
    }

    /// The answer, or what stood in its way.
    fn tried(&mut self, method: &str, parameters: &Value) -> Result<Value, Value> {
        self.number += 1;
        let mut ask = json!({ "id": self.number, "method": method, "params": parameters });
        if let Some(session) = &self.session {
            ask["sessionId"] = json!(session);
        }
        self.socket.send(Message::text(ask.to_string())).unwrap();
        loop {
            let Message::Text(text) = self.socket.read().unwrap() else { continue };
            let mut answer: Value = serde_json::from_str(&text).unwrap();
            if answer["id"] == json!(self.number) {
                let error = answer["error"].take();
                return if error.is_null() { Ok(answer["result"].take()) } else { Err(error) };
            }
        }
    }

    pub fn go(&mut self, url: &str) {
        self.call("Page.navigate", &json!({ "url": url }));
    }

    /// What an expression is worth on the page; null while a page is being left.
    pub fn js(&mut self, expression: &str) -> Value {
        let ask = json!({ "expression": expression, "awaitPromise": true, "returnByValue": true });
        self.tried("Runtime.evaluate", &ask)
            .map_or(Value::Null, |mut answer| answer["result"]["value"].take())
    }

    /// Waits until an expression is true.
    pub fn until(&mut self, expression: &str) {
        for _ in 0..TRIES {
            if self.js(expression) == json!(true) {
                return;
            }
            std::thread::sleep(PAUSE);
        }
        let seen = self.js("location.href + '\\n' + document.body.innerText");
        panic!("never true: {expression}\n{}", seen.as_str().unwrap_or_default());
    }

    /// Opens a page of the desk and waits for its heading, and for what its script says by itself: whether it is kept up to date.
    pub fn open(&mut self, url: &str, heading: &str) {
        self.go(url);
        let path = url.splitn(4, '/').nth(3).unwrap_or_default();
        self.until(&format!(
            "location.href.includes({}) && document.querySelector('h1')?.innerText.startsWith({}) \
             && document.readyState === 'complete' && document.getElementById('live')?.textContent !== ''",
            json!(path),
            json!(heading)
        ));
    }

    /// Puts a file into a file field, as a person's choice would.
    pub fn choose(&mut self, field: &str, file: &Path) {
        let document = self.call("DOM.getDocument", &json!({}));
        let root = document["root"]["nodeId"].clone();
        let node = self.call("DOM.querySelector", &json!({ "nodeId": root, "selector": field }));
        let files = json!({ "nodeId": node["nodeId"], "files": [file.display().to_string()] });
        self.call("DOM.setFileInputFiles", &files);
    }
}
