use slingseal_catalogue::board as words;
use std::collections::BTreeMap;

use serde::Serialize;

use crate::{App, AppError, CredentialView, Inner, Stamp, TrustedView};
use slingseal_store::{GroupBy, GroupCount};
use slingseal_words::Language;

/// Who may do what, until when, and what they sealed.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct PeopleView {
    /// Everyone with a credential or a record here: the first to run out first, then by name.
    pub people: Vec<PersonView>,
    /// Whom this home trusts, with the age of their rosters.
    pub authorities: Vec<TrustedView>,
}

/// One person.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct PersonView {
    /// Name or call sign.
    pub holder: String,
    /// Credentials, the last to expire first.
    pub credentials: Vec<CredentialView>,
    /// How that stands, in one line: until when, expired, revoked, none known here.
    pub standing: String,
    /// Whether it can be used now.
    pub good: bool,
    /// Inspections sealed.
    pub sealed: u64,
    /// How many of them said fit.
    pub fit: u64,
    /// Deficiencies found.
    pub found: u64,
    /// When the last one was sealed.
    pub last: Option<Stamp>,
}

impl App {
    /// People, their credentials and what they sealed.
    ///
    /// # Errors
    /// Storage.
    pub fn people(&self) -> Result<PeopleView, AppError> {
        self.lock().people()
    }
}

impl Inner {
    fn people(&self) -> Result<PeopleView, AppError> {
        let trusted = self.trusted()?;
        let mut known: BTreeMap<String, (Vec<CredentialView>, Option<GroupCount>)> = BTreeMap::new();
        for row in self.store.read().credentials()? {
            let Ok(view) = self.credential_view(&trusted, &row.bytes) else { continue };
            known.entry(row.holder).or_default().0.push(view);
        }
        for group in self.store.read().groups(None, None)?.by(GroupBy::Inspector, false) {
            let whose = group.key.clone();
            known.entry(whose).or_default().1 = Some(group);
        }
        let mut people: Vec<PersonView> = known
            .into_iter()
            .map(|(holder, (credentials, group))| person(holder, credentials, group, self.language()))
            .collect();
        let ends = |person: &PersonView| {
            // Whoever was credentialed in one sitting stands by name.
            let until = person.credentials.first().map(|credential| credential.expires.unix / 3600);
            (!person.good, until)
        };
        people.sort_by(|a, b| ends(a).cmp(&ends(b)).then_with(|| a.holder.cmp(&b.holder)));
        Ok(PeopleView { people, authorities: self.set_up()?.authorities })
    }
}

fn person(
    holder: String,
    mut credentials: Vec<CredentialView>,
    group: Option<GroupCount>,
    language: Language,
) -> PersonView {
    credentials.sort_by_key(|credential| std::cmp::Reverse((!credential.revoked, credential.expires.unix)));
    let newest = credentials.first();
    let good = newest.is_some_and(|credential| !credential.expired && !credential.revoked);
    let standing = match newest {
        None => words::NoCredentialKnown.say(language),
        Some(credential) if credential.revoked => words::CredentialIsRevoked.say(language),
        Some(credential) if credential.expired => {
            words::CredentialRanOut { at: &credential.expires.dtg }.say(language)
        }
        Some(credential) => words::CredentialUntil { until: &credential.expires.dtg }.say(language),
    };
    PersonView {
        holder,
        standing,
        good,
        sealed: group.as_ref().map_or(0, |group| group.records),
        fit: group.as_ref().map_or(0, |group| group.fit),
        found: group.as_ref().map_or(0, |group| group.found),
        last: group.map(|group| group.last.into()),
        credentials,
    }
}
