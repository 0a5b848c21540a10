//! The desk's own certificate: nobody vouches for it, so its fingerprint is told on the terminal and compared in the browser. It
//! lies in the home beside the device's secret and is kept, so that a browser that knows it does not warn again.

use std::net::IpAddr;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use rcgen::{CertificateParams, DistinguishedName, DnType, ExtendedKeyUsagePurpose, KeyPair, SanType};
use sha2::{Digest as _, Sha256};
use slingseal_app::catalogue::page as words;
use slingseal_app::{AppError, Time};
use tokio_rustls::TlsAcceptor;
use tokio_rustls::rustls::pki_types::pem::PemObject;
use tokio_rustls::rustls::pki_types::{CertificateDer, PrivateKeyDer};
use tokio_rustls::rustls::{ServerConfig, crypto::ring};

use crate::files;
use crate::output::bad_input;

/// How long a certificate holds, in days: browsers take none of their own for longer than 397.
const LIFE: i64 = 397;
/// One that runs out within so many days is made anew.
const SOON: i64 = 30;
const DAY: i64 = 86_400;
/// Before the line that says until when it holds, for whoever opens the file and for us.
const UNTIL: &str = "# slingseal page, until unix ";

/// What the desk speaks TLS with.
pub(super) struct Identity {
    pub(super) acceptor: TlsAcceptor,
    /// SHA-256 of the certificate, as browsers show it.
    pub(super) fingerprint: String,
}

/// The certificate for an address, as it is kept in the home, or a new one.
///
/// # Errors
/// The home cannot be written; the platform's randomness.
pub(super) fn identity(home: &Path, ip: IpAddr, now: Time) -> Result<Identity, AppError> {
    let path = place(home, ip);
    let kept = std::fs::read_to_string(&path).ok().filter(|text| holds(text, now));
    // One that cannot be read any more is as good as none.
    if let Some(identity) = kept.and_then(|text| of(&text).ok()) {
        return Ok(identity);
    }
    let text = made(ip, now).map_err(failed)?;
    // The home's folder is closed to others already.
    files::write(&path, text.as_bytes())?;
    files::close_file(&path);
    of(&text)
}

/// One file an address: a certificate names the address that it is for.
fn place(home: &Path, ip: IpAddr) -> PathBuf {
    home.join(format!("page-{}.pem", ip.to_string().replace([':', '%'], "-")))
}

fn failed(error: impl std::fmt::Display) -> AppError {
    bad_input(words::CertificateNotMade { plain: error.to_string() })
}

fn holds(text: &str, now: Time) -> bool {
    let until = text.lines().find_map(|line| line.strip_prefix(UNTIL)).and_then(|until| until.parse().ok());
    until.is_some_and(|until: i64| until - SOON * DAY > now.unix())
}

fn made(ip: IpAddr, now: Time) -> Result<String, rcgen::Error> {
    let until = now.unix() + LIFE * DAY;
    let at = |unix: i64| {
        time::OffsetDateTime::from_unix_timestamp(unix).unwrap_or(time::OffsetDateTime::UNIX_EPOCH)
    };
    let mut asked = CertificateParams::new(Vec::<String>::new())?;
    asked.subject_alt_names = vec![SanType::IpAddress(ip)];
    if ip.is_loopback() {
        asked.subject_alt_names.push(SanType::DnsName("localhost".try_into()?));
    }
    let mut name = DistinguishedName::new();
    name.push(DnType::CommonName, format!("slingseal {ip}"));
    asked.distinguished_name = name;
    asked.extended_key_usages = vec![ExtendedKeyUsagePurpose::ServerAuth];
    // A browser whose clock is a little behind takes it as well.
    asked.not_before = at(now.unix() - DAY);
    asked.not_after = at(until - DAY);
    let key = KeyPair::generate()?;
    let certificate = asked.self_signed(&key)?;
    Ok(format!("{UNTIL}{until}\n{}{}", certificate.pem(), key.serialize_pem()))
}

fn of(text: &str) -> Result<Identity, AppError> {
    let certificate = CertificateDer::from_pem_slice(text.as_bytes()).map_err(failed)?;
    let key = PrivateKeyDer::from_pem_slice(text.as_bytes()).map_err(failed)?;
    let fingerprint: Vec<String> =
        Sha256::digest(&certificate).iter().map(|byte| format!("{byte:02X}")).collect();
    let mut config = ServerConfig::builder_with_provider(Arc::new(ring::default_provider()))
        .with_safe_default_protocol_versions()
        .map_err(failed)?
        .with_no_client_auth()
        .with_single_cert(vec![certificate], key)
        .map_err(failed)?;
    config.alpn_protocols = vec![b"http/1.1".to_vec()];
    Ok(Identity { acceptor: TlsAcceptor::from(Arc::new(config)), fingerprint: fingerprint.join(":") })
}

#[cfg(test)]
mod tests {
    use super::{DAY, identity, place};
    use slingseal_app::Time;

    /// It is kept, for its address alone; one that runs out or is spoiled is made anew, and nobody else may read its key.
    #[test]
    fn a_certificate_is_kept_for_its_address() {
        let home = tempfile::tempdir().unwrap();
        let (ip, now) = ("192.0.2.7".parse().unwrap(), Time::from_unix(1_796_000_000));
        let first = identity(home.path(), ip, now).unwrap().fingerprint;
        assert_eq!(first.len(), 32 * 3 - 1);
        let later = Time::from_unix(now.unix() + 300 * DAY);
        assert_eq!(identity(home.path(), ip, later).unwrap().fingerprint, first);
        assert_ne!(identity(home.path(), "127.0.0.1".parse().unwrap(), now).unwrap().fingerprint, first);
        let old = Time::from_unix(now.unix() + 380 * DAY);
        let second = identity(home.path(), ip, old).unwrap().fingerprint;
        assert_ne!(second, first, "one that runs out soon is made anew");
        let path = place(home.path(), ip);
        let text = std::fs::read_to_string(&path).unwrap();
        std::fs::write(&path, text.replace("BEGIN CERTIFICATE", "BEGIN NOTHING")).unwrap();
        assert_ne!(
            identity(home.path(), ip, old).unwrap().fingerprint,
            second,
            "one that is spoiled is made anew"
        );
        #[cfg(unix)]
        {
            use std::os::unix::fs::PermissionsExt;
            assert_eq!(std::fs::metadata(&path).unwrap().permissions().mode() & 0o777, 0o600);
        }
    }
}
