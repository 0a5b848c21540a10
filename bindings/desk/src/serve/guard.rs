//! Who may ask. A page on this machine is open to every program and web site that runs here: a request has to name the
//! address that was opened, carry the cookie of this start, and come from our own page where it changes something.

use std::net::SocketAddr;

use slingseal_app::catalogue::page as words;
use slingseal_app::{Entropy, Language};

/// What one start lets in.
pub(super) struct Guard {
    /// In the link that is printed.
    token: String,
    /// In the cookie that the link gives.
    cookie: String,
    /// `127.0.0.1:PORT`, `localhost:PORT`, or the one address that was opened.
    hosts: Vec<String>,
    /// Whether others than this machine can reach it.
    pub(super) open: bool,
    /// Whether what travels is encrypted.
    encrypted: bool,
}

/// Why a request was turned away.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Refused {
    /// It names another host: a web site that had its name point here.
    Host,
    /// It comes from another site's page.
    Origin,
    /// It does not carry this start's cookie.
    Stranger,
}

impl Refused {
    pub(super) fn say(self, language: Language) -> String {
        match self {
            Self::Host => words::OtherAddress.say(language),
            Self::Origin => words::FromOtherPage.say(language),
            Self::Stranger => words::BrowserNotKnown.say(language),
        }
    }
}

const COOKIE: &str = "slingseal";

pub(super) fn secret(entropy: &dyn Entropy) -> String {
    let mut bytes = [0; 16];
    entropy.fill(&mut bytes);
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}

/// In the same time wherever they differ.
pub(super) fn same(a: &str, b: &str) -> bool {
    a.len() == b.len() && a.bytes().zip(b.bytes()).fold(0, |seen, (a, b)| seen | (a ^ b)) == 0
}

impl Guard {
    pub(super) fn new(address: SocketAddr, encrypted: bool, entropy: &dyn Entropy) -> Self {
        let mut hosts = vec![address.to_string()];
        if address.ip().is_loopback() {
            hosts.push(format!("localhost:{}", address.port()));
        }
        let open = !address.ip().is_loopback();
        Self { token: secret(entropy), cookie: secret(entropy), hosts, open, encrypted }
    }

    /// Whether a PIN or a passphrase would travel so that others can read it.
    pub(super) fn in_the_clear(&self) -> bool {
        self.open && !self.encrypted
    }

    fn scheme(&self) -> &'static str {
        if self.encrypted { "https" } else { "http" }
    }

    /// The link that a person opens.
    pub(super) fn link(&self) -> String {
        let host = self.hosts.first().map(String::as_str).unwrap_or_default();
        format!("{}://{host}/open?token={}", self.scheme(), self.token)
    }

    /// The `Set-Cookie` of the right token.
    pub(super) fn admit(&self, token: &str) -> Option<String> {
        let secure = if self.encrypted { "; Secure" } else { "" };
        same(token, &self.token)
            .then(|| format!("{COOKIE}={}; Path=/; HttpOnly; SameSite=Strict{secure}", self.cookie))
    }

    /// `host`, `origin` and `cookies` as the request's head has them; `changes` for anything but a plain look.
    pub(super) fn check(
        &self,
        host: Option<&str>,
        origin: Option<&str>,
        cookies: Option<&str>,
        changes: bool,
    ) -> Result<(), Refused> {
        self.check_host(host)?;
        let ours = |origin: &str| {
            let host = origin.strip_prefix(self.scheme()).and_then(|rest| rest.strip_prefix("://"));
            host.is_some_and(|host| self.hosts.iter().any(|known| known == host))
        };
        match origin {
            Some(origin) if !ours(origin) => return Err(Refused::Origin),
            None if changes => return Err(Refused::Origin),
            _ => {}
        }
        let known = cookies.unwrap_or_default().split(';').any(|pair| {
            pair.trim()
                .split_once('=')
                .is_some_and(|(name, value)| name == COOKIE && same(value, &self.cookie))
        });
        if known { Ok(()) } else { Err(Refused::Stranger) }
    }

    pub(super) fn check_host(&self, host: Option<&str>) -> Result<(), Refused> {
        let named = host.is_some_and(|host| self.hosts.iter().any(|known| known.eq_ignore_ascii_case(host)));
        if named { Ok(()) } else { Err(Refused::Host) }
    }
}

#[cfg(test)]
mod tests {
    use super::{Guard, Refused};
    use slingseal_app::Entropy;
    use std::sync::atomic::{AtomicU8, Ordering};

    struct Counting(AtomicU8);

    impl Entropy for Counting {
        fn fill(&self, bytes: &mut [u8]) {
            bytes.fill(self.0.fetch_add(1, Ordering::Relaxed));
        }
    }

    #[test]
    fn lets_in_our_own_page_and_nobody_else() {
        let guard = Guard::new("127.0.0.1:8731".parse().unwrap(), false, &Counting(AtomicU8::new(1)));
        assert!(!guard.open && !guard.in_the_clear());
        assert_eq!(guard.link(), format!("http://127.0.0.1:8731/open?token={}", "01".repeat(16)));
        assert_eq!(guard.admit(&"02".repeat(16)), None, "the cookie is no token");
        let cookie = guard.admit(&"01".repeat(16)).unwrap();
        assert!(cookie.ends_with("; Path=/; HttpOnly; SameSite=Strict"));
        let pair = cookie.split(';').next().unwrap();
        let both = format!("other=1; {pair}");
        let (host, ours) = (Some("127.0.0.1:8731"), Some("http://127.0.0.1:8731"));
        let check = |host, origin, cookies, changes| guard.check(host, origin, cookies, changes);
        assert_eq!(check(host, None, Some(pair), false), Ok(()));
        assert_eq!(check(Some("LOCALHOST:8731"), Some("http://localhost:8731"), Some(&both), true), Ok(()));
        assert_eq!(check(host, ours, Some(pair), true), Ok(()));
        // A page that changes something says where it comes from; other sites, other ports, no site at all are refused.
        for origin in [
            None,
            Some("null"),
            Some("http://127.0.0.1:8732"),
            Some("https://127.0.0.1:8731"),
            Some("http://example.org"),
        ] {
            assert_eq!(check(host, origin, Some(pair), true), Err(Refused::Origin), "{origin:?}");
        }
        // A name that was made to point to this machine.
        for host in [None, Some("example.org:8731"), Some("127.0.0.1"), Some("127.0.0.1:8731.example.org")] {
            assert_eq!(check(host, ours, Some(pair), true), Err(Refused::Host), "{host:?}");
        }
        let swapped = format!("slingseal={}", "01".repeat(16));
        for cookies in [None, Some(""), Some("slingseal="), Some(swapped.as_str())] {
            assert_eq!(check(host, ours, cookies, false), Err(Refused::Stranger), "{cookies:?}");
        }
    }

    #[test]
    fn an_opened_address_is_the_only_one() {
        let guard = Guard::new("192.0.2.7:8731".parse().unwrap(), false, &Counting(AtomicU8::new(1)));
        assert!(guard.open && guard.in_the_clear());
        assert_eq!(guard.check_host(Some("localhost:8731")), Err(Refused::Host));
        assert_eq!(guard.check_host(Some("192.0.2.7:8731")), Ok(()));
    }

    /// Over TLS it takes nothing that came without: neither a form of an unencrypted page nor, with the cookie, a plain request.
    #[test]
    fn an_encrypted_page_is_another_page() {
        let guard = Guard::new("192.0.2.7:8731".parse().unwrap(), true, &Counting(AtomicU8::new(1)));
        assert!(guard.open && !guard.in_the_clear());
        assert!(guard.link().starts_with("https://192.0.2.7:8731/open?token="));
        let cookie = guard.admit(&"01".repeat(16)).unwrap();
        assert!(cookie.ends_with("; HttpOnly; SameSite=Strict; Secure"));
        let (host, pair) = (Some("192.0.2.7:8731"), cookie.split(';').next());
        assert_eq!(guard.check(host, Some("https://192.0.2.7:8731"), pair, true), Ok(()));
        assert_eq!(guard.check(host, Some("http://192.0.2.7:8731"), pair, true), Err(Refused::Origin));
    }
}
