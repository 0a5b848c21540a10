//! What was asked, taken apart. Nothing is read beyond its bound.

use slingseal_app::catalogue::page as words;
use std::collections::BTreeMap;
use std::io::Read;

use slingseal_app::AppError;
use slingseal_app::catalogue::Saying;

use super::http::Request;
use crate::output::bad_input;

/// The most bytes of a form: a load list, pasted codes.
const FORM: u64 = 8 << 20;

/// A request's path and what stands behind the question mark.
pub(super) struct Ask {
    pub(super) post: bool,
    /// The parts of the path, decoded.
    pub(super) path: Vec<String>,
    pub(super) query: Form,
}

/// Names and values, the first value of a name first.
#[derive(Clone, Debug, Default)]
pub(super) struct Form(BTreeMap<String, Vec<String>>);

impl Form {
    fn parse(bytes: &[u8]) -> Self {
        let mut form = Self::default();
        for (name, value) in form_urlencoded::parse(bytes) {
            // A browser sends its line ends as CR LF, whatever stood in the field.
            form.0.entry(name.into_owned()).or_default().push(value.replace("\r\n", "\n"));
        }
        form
    }

    /// The value of a field, trimmed; empty where there is none.
    pub(super) fn get(&self, name: &str) -> &str {
        self.all(name).next().unwrap_or_default().trim()
    }

    pub(super) fn some(&self, name: &str) -> Option<String> {
        Some(self.get(name)).filter(|value| !value.is_empty()).map(str::to_owned)
    }

    pub(super) fn names(&self) -> impl Iterator<Item = &str> {
        self.0.keys().map(String::as_str)
    }

    pub(super) fn all(&self, name: &str) -> impl Iterator<Item = &str> {
        self.0.get(name).into_iter().flatten().map(String::as_str)
    }

    /// A number within bounds; `usual` where there is none.
    pub(super) fn number(&self, name: &str, usual: u32, most: u32) -> u32 {
        self.get(name).parse().unwrap_or(usual).min(most)
    }
}

impl Ask {
    /// `None` for a method that nothing here answers.
    pub(super) fn of(request: &Request) -> Option<Self> {
        let post = match request.method.as_str() {
            "GET" => false,
            "POST" => true,
            _ => return None,
        };
        let target = request.target.as_str();
        let (path, query) = target.split_once('?').unwrap_or((target, ""));
        let decoded =
            |part: &str| percent_encoding::percent_decode_str(part).decode_utf8_lossy().into_owned();
        let path = path.split('/').filter(|part| !part.is_empty()).map(decoded).collect();
        Some(Self { post, path, query: Form::parse(query.as_bytes()) })
    }
}

/// The form of a post.
pub(super) fn form(request: &mut Request) -> Result<Form, AppError> {
    Ok(Form::parse(&bytes(request, FORM)?))
}

/// The whole body, up to a bound.
pub(super) fn bytes(request: &mut Request, most: u64) -> Result<Vec<u8>, AppError> {
    let too_large = || bad_input(words::MoreThanMebibytes { most: &(most >> 20) });
    if request.length > most {
        return Err(too_large());
    }
    let mut bytes = Vec::new();
    let read = request.body().take(most).read_to_end(&mut bytes);
    let broken = |what: Saying| bad_input(words::UploadBrokeOff { what });
    match read {
        Err(error) => Err(broken(crate::output::plain(&error))),
        Ok(read) if u64::try_from(read).is_ok_and(|read| read == request.length) => Ok(bytes),
        Ok(_) => Err(broken(words::EndIsMissing.into())),
    }
}
