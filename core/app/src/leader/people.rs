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

/// How a person's newest credential stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum PersonStanding {
    /// None is known here.
    NoCredential,
    /// It can be used now.
    Good,
    /// It ran out.
    Expired,
    /// It was taken back.
    Revoked,
}

impl PersonStanding {
    /// Whether it can be used now.
    pub fn is_good(self) -> bool {
        matches!(self, Self::Good)
    }

    fn of(newest: Option<&CredentialView>) -> Self {
        match newest {
            None => Self::NoCredential,
            Some(credential) if credential.revoked => Self::Revoked,
            Some(credential) if credential.expired => Self::Expired,
            Some(_) => Self::Good,
        }
    }
}

/// One person.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct PersonView {
    /// Name or call sign.
    pub holder: String,
    /// Credentials, the last to expire first.
    pub credentials: Vec<CredentialView>,
    /// How that stands now.
    pub standing: PersonStanding,
    /// The same in one line: until when, expired, revoked, none known here.
    pub standing_title: String,
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
    pub(super) fn people(&self) -> Result<PeopleView, AppError> {
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
            (!person.standing.is_good(), until)
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
    let standing = PersonStanding::of(newest);
    let until = newest.map(|credential| credential.expires.dtg.as_str()).unwrap_or_default();
    let standing_title = match standing {
        PersonStanding::NoCredential => words::NoCredentialKnown.say(language),
        PersonStanding::Revoked => words::CredentialIsRevoked.say(language),
        PersonStanding::Expired => words::CredentialRanOut { at: until }.say(language),
        PersonStanding::Good => words::CredentialUntil { until }.say(language),
    };
    PersonView {
        holder,
        standing,
        standing_title,
        sealed: group.as_ref().map_or(0, |group| group.records),
        fit: group.as_ref().map_or(0, |group| group.fit),
        found: group.as_ref().map_or(0, |group| group.found),
        last: group.map(|group| group.last.into()),
        credentials,
    }
}
