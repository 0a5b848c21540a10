//! Whoever asks over TLS without knowing the desk, for the tests of the page and the measurement of it.

use std::sync::Mutex;

use tokio_rustls::rustls::client::danger::{HandshakeSignatureValid, ServerCertVerified, ServerCertVerifier};
use tokio_rustls::rustls::crypto::ring;
use tokio_rustls::rustls::pki_types::{CertificateDer, ServerName, UnixTime};
use tokio_rustls::rustls::{DigitallySignedStruct, Error, SignatureScheme};

/// Whoever shows a certificate, as a browser whose user goes on; it notes which one it was.
#[derive(Debug, Default)]
pub(crate) struct Anyone(Mutex<Option<Vec<u8>>>);

impl Anyone {
    /// The certificate that was shown last.
    pub(crate) fn shown(&self) -> Option<Vec<u8>> {
        self.0.lock().unwrap().clone()
    }
}

impl ServerCertVerifier for Anyone {
    fn verify_server_cert(
        &self,
        shown: &CertificateDer<'_>,
        _: &[CertificateDer<'_>],
        _: &ServerName<'_>,
        _: &[u8],
        _: UnixTime,
    ) -> Result<ServerCertVerified, Error> {
        *self.0.lock().unwrap() = Some(shown.to_vec());
        Ok(ServerCertVerified::assertion())
    }

    fn verify_tls12_signature(
        &self,
        message: &[u8],
        certificate: &CertificateDer<'_>,
        signed: &DigitallySignedStruct,
    ) -> Result<HandshakeSignatureValid, Error> {
        let known = ring::default_provider().signature_verification_algorithms;
        tokio_rustls::rustls::crypto::verify_tls12_signature(message, certificate, signed, &known)
    }

    fn verify_tls13_signature(
        &self,
        message: &[u8],
        certificate: &CertificateDer<'_>,
        signed: &DigitallySignedStruct,
    ) -> Result<HandshakeSignatureValid, Error> {
        let known = ring::default_provider().signature_verification_algorithms;
        tokio_rustls::rustls::crypto::verify_tls13_signature(message, certificate, signed, &known)
    }

    fn supported_verify_schemes(&self) -> Vec<SignatureScheme> {
        ring::default_provider().signature_verification_algorithms.supported_schemes()
    }
}
