//! Just enough HTTP/1.1 for one page: one request a connection, every length bounded before anything is made of it, every wait
//! bounded in time.

use std::io::{Cursor, Read, Take, Write};
use std::net::{Shutdown, TcpStream};

use super::patience::{Paced, Patience};

/// The most bytes of a request's head: the page of a long load list names each of its tags.
const HEAD: usize = 256 << 10;
/// The most fields of a head.
const FIELDS: usize = 64;
/// What is read of a body that nobody asked for, so that the answer arrives before the connection ends.
const REST: u64 = 256 << 10;

/// A request whose head was read.
pub(super) struct Request {
    /// `GET`, `POST`, …
    pub(super) method: String,
    /// The path and what stands behind the question mark, as sent.
    pub(super) target: String,
    fields: Vec<(String, String)>,
    /// How long the body says that it is.
    pub(super) length: u64,
    body: Take<std::io::Chain<Cursor<Vec<u8>>, Paced>>,
}

impl Request {
    /// Reads the head. `None` for a connection that says nothing sensible in time.
    pub(super) fn read(stream: TcpStream) -> Option<Self> {
        Self::read_with(stream, Patience::FIELD)
    }

    /// The same with another patience.
    pub(super) fn read_with(stream: TcpStream, patience: Patience) -> Option<Self> {
        let mut stream = Paced::new(stream, patience).ok()?;
        let mut bytes = Vec::new();
        let mut part = [0; 4096];
        loop {
            let read = stream.read(&mut part).ok().filter(|read| *read > 0)?;
            bytes.extend_from_slice(part.get(..read)?);
            let mut fields = [httparse::EMPTY_HEADER; FIELDS];
            let mut head = httparse::Request::new(&mut fields);
            match head.parse(&bytes).ok()? {
                httparse::Status::Partial if bytes.len() < HEAD => {}
                httparse::Status::Partial => return None,
                httparse::Status::Complete(end) => {
                    let (method, target) = (head.method?.to_owned(), head.path?.to_owned());
                    let text = |bytes: &[u8]| String::from_utf8_lossy(bytes).into_owned();
                    let fields: Vec<(String, String)> =
                        head.headers.iter().map(|field| (field.name.to_owned(), text(field.value))).collect();
                    let rest = bytes.split_off(end);
                    stream.body();
                    return Self::with_body(method, target, fields, rest, stream);
                }
            }
        }
    }

    fn with_body(
        method: String,
        target: String,
        fields: Vec<(String, String)>,
        rest: Vec<u8>,
        stream: Paced,
    ) -> Option<Self> {
        let mut request =
            Self { method, target, fields, length: 0, body: Cursor::new(rest).chain(stream).take(0) };
        // A body of no told length is nothing that our page sends. Two lengths are somebody's trick.
        if request.field("Transfer-Encoding").is_some() {
            return None;
        }
        let lengths: Vec<&str> = request.all("Content-Length").collect();
        request.length = match lengths.as_slice() {
            [] => 0,
            [one] if one.bytes().all(|byte| byte.is_ascii_digit()) => one.parse().ok()?,
            _ => return None,
        };
        request.body.set_limit(request.length);
        Some(request)
    }

    fn all(&self, name: &'static str) -> impl Iterator<Item = &str> {
        let named = move |field: &&(String, String)| field.0.eq_ignore_ascii_case(name);
        self.fields.iter().filter(named).map(|(_, value)| value.trim())
    }

    /// A field of the head. One that is told twice is told not at all: which of the two was meant is anybody's guess.
    pub(super) fn field(&self, name: &'static str) -> Option<&str> {
        let mut all = self.all(name);
        let first = all.next();
        if all.next().is_some() { Some("") } else { first }
    }

    /// The body.
    pub(super) fn body(&mut self) -> &mut (dyn Read + Send) {
        &mut self.body
    }

    /// Answers, and ends the connection.
    pub(super) fn answer(
        mut self,
        status: u16,
        fields: &[(&str, String)],
        length: u64,
        body: &mut dyn Read,
    ) -> std::io::Result<()> {
        let mut head = format!(
            "HTTP/1.1 {status} {}\r\nConnection: close\r\nContent-Length: {length}\r\n",
            reason(status)
        );
        for (name, value) in fields {
            // A value comes from our own code; a line end in one would begin a field of somebody else's.
            let value: String = value.chars().filter(|letter| !letter.is_control()).collect();
            head.push_str(&format!("{name}: {value}\r\n"));
        }
        head.push_str("\r\n");
        let stream = self.body.get_mut().get_mut().1.stream();
        stream.write_all(head.as_bytes())?;
        std::io::copy(&mut body.take(length), stream)?;
        stream.shutdown(Shutdown::Write)?;
        self.body.get_mut().get_mut().1.leave();
        std::io::copy(&mut std::io::Read::take(&mut self.body, REST), &mut std::io::sink())?;
        Ok(())
    }
}

fn reason(status: u16) -> &'static str {
    match status {
        200 => "OK",
        303 => "See Other",
        400 => "Bad Request",
        403 => "Forbidden",
        404 => "Not Found",
        405 => "Method Not Allowed",
        409 => "Conflict",
        507 => "Insufficient Storage",
        _ => "Internal Server Error",
    }
}

#[cfg(test)]
mod tests {
    use super::Request;
    use std::io::Write;
    use std::net::{TcpListener, TcpStream};

    /// What the server makes of bytes on the wire.
    fn read(bytes: &[u8]) -> Option<Request> {
        let listener = TcpListener::bind("127.0.0.1:0").unwrap();
        let mut client = TcpStream::connect(listener.local_addr().unwrap()).unwrap();
        client.write_all(bytes).unwrap();
        client.shutdown(std::net::Shutdown::Write).unwrap();
        Request::read(listener.accept().unwrap().0)
    }

    #[test]
    fn reads_a_request_and_no_more_of_its_body_than_it_tells() {
        let mut request =
            read(b"POST /a?b=c HTTP/1.1\r\nHost: x:1\r\nContent-Length: 3\r\n\r\nabcdef").unwrap();
        assert_eq!((request.method.as_str(), request.target.as_str(), request.length), ("POST", "/a?b=c", 3));
        assert_eq!(request.field("HOST"), Some("x:1"));
        let mut body = String::new();
        request.body().read_to_string(&mut body).unwrap();
        assert_eq!(body, "abc");
        // A length that nobody could hold costs nothing until it comes.
        let large = read(b"POST / HTTP/1.1\r\nContent-Length: 18446744073709551615\r\n\r\n").unwrap();
        assert_eq!(large.length, u64::MAX);
    }

    #[test]
    fn turns_away_what_can_be_read_in_two_ways() {
        for bad in [
            "GET / HTTP/1.1\r\nContent-Length: 1\r\nContent-Length: 2\r\n\r\n",
            "GET / HTTP/1.1\r\nContent-Length: +1\r\n\r\n",
            "GET / HTTP/1.1\r\nContent-Length: -1\r\n\r\n",
            "GET / HTTP/1.1\r\nTransfer-Encoding: chunked\r\n\r\n0\r\n\r\n",
            "GET /\r\n\r\n",
            "junk",
            "",
        ] {
            assert!(read(bad.as_bytes()).is_none(), "{bad:?}");
        }
        let twice = read(b"GET / HTTP/1.1\r\nHost: a\r\nHost: b\r\n\r\n").unwrap();
        assert_eq!(twice.field("Host"), Some(""), "no host is both");
        let long = format!("GET / HTTP/1.1\r\nX: {}\r\n", "x".repeat(300 << 10));
        assert!(read(long.as_bytes()).is_none());
    }
}
