//! A terminal of a test's own: a pseudo-terminal of the size that is wanted, and the cells of what a program draws on it.

use std::fs::File;
use std::io::{Read, Write};
use std::os::fd::OwnedFd;
use std::process::{Child, Command};
use std::sync::mpsc::{Receiver, channel};
use std::time::Duration;

/// Both ends: what a person sees and types at, and what the program has.
pub fn open(columns: u16, rows: u16) -> (File, File) {
    use rustix::pty::{OpenptFlags, grantpt, openpt, ptsname, unlockpt};
    let near: OwnedFd = openpt(OpenptFlags::RDWR | OpenptFlags::NOCTTY | OpenptFlags::CLOEXEC).unwrap();
    grantpt(&near).unwrap();
    unlockpt(&near).unwrap();
    let name = ptsname(&near, Vec::new()).unwrap().into_string().unwrap();
    let size = rustix::termios::Winsize { ws_row: rows, ws_col: columns, ws_xpixel: 0, ws_ypixel: 0 };
    rustix::termios::tcsetwinsize(&near, size).unwrap();
    (File::from(near), File::options().read(true).write(true).open(name).unwrap())
}

/// Reads what is drawn on the near end for as long as somebody wants it. What a terminal is asked, it answers: that it has no more
/// than the plain keys.
pub fn listen(near: &File) -> Receiver<Vec<u8>> {
    let mut reading = near.try_clone().unwrap();
    let (tell, drawn) = channel();
    std::thread::spawn(move || {
        let mut bytes = [0; 4096];
        while let Ok(count @ 1..) = reading.read(&mut bytes) {
            if bytes[..count].windows(3).any(|asked| asked == b"\x1b[c") {
                reading.write_all(b"\x1b[?6c").unwrap();
            }
            if tell.send(bytes[..count].to_vec()).is_err() {
                return;
            }
        }
    });
    drawn
}

/// A cell as it is drawn: a letter, and the numbers of its colours among the sixteen; none is the terminal's own.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cell {
    pub letter: char,
    pub ink: Option<u8>,
    pub ground: Option<u8>,
    pub reversed: bool,
}

const BLANK: Cell = Cell { letter: ' ', ink: None, ground: None, reversed: false };

/// The cells of a screen, after the control sequences that our programs write (ECMA-48).
pub struct Cells {
    columns: usize,
    cells: Vec<Vec<Cell>>,
    at: (usize, usize),
    pen: Cell,
    /// What a read cut in two.
    rest: Vec<u8>,
    /// Whether the last that came was the end of a frame: the full screen hides the cursor behind each.
    whole: bool,
}

impl Cells {
    pub fn new(columns: u16, rows: u16) -> Self {
        let columns = usize::from(columns);
        Self {
            columns,
            cells: vec![vec![BLANK; columns]; usize::from(rows)],
            at: (0, 0),
            pen: BLANK,
            rest: Vec::new(),
            whole: false,
        }
    }

    pub fn all(&self) -> impl Iterator<Item = &Cell> {
        self.cells.iter().flatten()
    }

    pub fn text(&self) -> String {
        let rows = self.cells.iter().map(|row| {
            let row: String = row.iter().map(|cell| cell.letter).collect();
            format!("{}\n", row.trim_end())
        });
        rows.collect()
    }

    pub fn take(&mut self, bytes: &[u8]) {
        let mut bytes = [std::mem::take(&mut self.rest).as_slice(), bytes].concat();
        loop {
            let used = match bytes.as_slice() {
                [] => return,
                [0x1b, b'[', rest @ ..] => match rest.iter().position(|byte| (0x40..=0x7e).contains(byte)) {
                    Some(end) => {
                        let told = String::from_utf8_lossy(&rest[..end]).into_owned();
                        self.control(&told, rest[end]);
                        end + 3
                    }
                    None => break,
                },
                [0x1b] => break,
                [0x1b, ..] => 2,
                [b'\r', ..] => {
                    self.at.0 = 0;
                    1
                }
                [b'\n', ..] => {
                    self.at.1 += 1;
                    1
                }
                [first, ..] => {
                    let long = match first {
                        0xf0.. => 4,
                        0xe0.. => 3,
                        0xc0.. => 2,
                        _ => 1,
                    };
                    if bytes.len() < long {
                        break;
                    }
                    if let Some(letter) =
                        std::str::from_utf8(&bytes[..long]).ok().and_then(|text| text.chars().next())
                    {
                        self.put(letter);
                    }
                    long
                }
            };
            bytes.drain(..used);
        }
        self.rest = bytes;
    }

    fn put(&mut self, letter: char) {
        self.whole = false;
        let (x, y) = self.at;
        if let Some(cell) = self.cells.get_mut(y).and_then(|row| row.get_mut(x)) {
            *cell = Cell { letter, ..self.pen };
        }
        self.at.0 += 1;
    }

    fn control(&mut self, told: &str, what: u8) {
        let numbers: Vec<usize> = told.split(';').map(|number| number.parse().unwrap_or(0)).collect();
        let nth = |at: usize| numbers.get(at).copied().unwrap_or(0);
        self.whole = (told, what) == ("?25", b'l');
        match what {
            b'H' => self.at = (nth(1).max(1) - 1, nth(0).max(1) - 1),
            b'J' => self.cells.iter_mut().for_each(|row| row.fill(BLANK)),
            b'K' => self.cells[self.at.1][self.at.0.min(self.columns)..].fill(BLANK),
            b'm' => self.paint(&numbers),
            // Modes of the terminal, and what it is asked.
            b'h' | b'l' | b'c' | b'u' => {}
            other => panic!("a terminal was told {told:?} {:?}", char::from(other)),
        }
    }

    fn paint(&mut self, numbers: &[usize]) {
        let number = |number: usize| u8::try_from(number).ok();
        match numbers {
            [] => {}
            [38, 5, ink, rest @ ..] => {
                self.pen.ink = number(*ink);
                self.paint(rest);
            }
            [48, 5, ground, rest @ ..] => {
                self.pen.ground = number(*ground);
                self.paint(rest);
            }
            [one, rest @ ..] => {
                match *one {
                    0 => self.pen = BLANK,
                    7 => self.pen.reversed = true,
                    27 => self.pen.reversed = false,
                    30..=37 => self.pen.ink = number(one - 30),
                    39 => self.pen.ink = None,
                    40..=47 => self.pen.ground = number(one - 40),
                    49 => self.pen.ground = None,
                    // Bold, underlined, and their ends.
                    _ => {}
                }
                self.paint(rest);
            }
        }
    }
}

/// A program on a terminal of its own. It does not outlive a test that failed.
pub struct Screen {
    keys: File,
    /// The far end, kept open for as long as somebody may still read what was written there.
    _far: File,
    child: Child,
    pub cells: Cells,
    drawn: Receiver<Vec<u8>>,
}

/// No key comes sooner after a screen: the program takes none for so long, so that a bouncing key answers nothing that nobody has
/// read. A least time, which a slow machine makes longer and no machine too short.
const SETTLE: Duration = Duration::from_millis(170);

/// Nobody waits for a program that says nothing for so long.
const PATIENCE: Duration = Duration::from_secs(60);

impl Screen {
    /// Of a program that is at its end already.
    pub fn nothing() -> Self {
        Self::start(Command::new("true"), (1, 1))
    }

    pub fn start(mut command: Command, (columns, rows): (u16, u16)) -> Self {
        let (keys, far) = open(columns, rows);
        let drawn = listen(&keys);
        let end = || far.try_clone().unwrap();
        command.env("TERM", "xterm-256color").stdin(end()).stdout(end()).stderr(end());
        let child = command.spawn().unwrap();
        Self { keys, _far: far, child, cells: Cells::new(columns, rows), drawn }
    }

    /// Waits until a whole frame says so; how its words are broken over lines does not count.
    pub fn until(&mut self, words: &str) {
        let flat = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
        while !(self.cells.whole && flat(&self.cells.text()).contains(&flat(words))) {
            let bytes = self.drawn.recv_timeout(PATIENCE);
            let bytes = bytes.unwrap_or_else(|_| panic!("no {words:?} in\n{}", self.cells.text()));
            self.cells.take(&bytes);
        }
    }

    /// Keys one after the other, each no sooner than it is taken, and the frame that answers each.
    pub fn press(&mut self, keys: &str) {
        for key in keys.chars() {
            self.key(key);
            self.cells.whole = false;
            while !self.cells.whole {
                let bytes = self.drawn.recv_timeout(PATIENCE);
                let bytes =
                    bytes.unwrap_or_else(|_| panic!("nothing answers {key:?} in\n{}", self.cells.text()));
                self.cells.take(&bytes);
            }
        }
    }

    fn key(&mut self, key: char) {
        std::thread::sleep(SETTLE);
        self.keys.write_all(key.to_string().replace('\n', "\r").as_bytes()).unwrap();
    }

    /// The last key: how the program ends, and what it says on the ordinary screen.
    pub fn leave(mut self, key: char) -> (i32, String) {
        self.key(key);
        let ended = self.child.wait().unwrap().code().unwrap_or(-1);
        let mut said = Vec::new();
        // The far end is open still: what was written is there, and nothing more comes.
        while let Ok(bytes) = self.drawn.recv_timeout(Duration::from_millis(200)) {
            said.extend(bytes);
        }
        let said = String::from_utf8_lossy(&said).into_owned();
        (ended, said.rsplit("\x1b[?1049l").next().unwrap_or_default().to_owned())
    }
}

impl Drop for Screen {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}
