//! What the demo's people do: take a credential, walk a load, correct what they found, check at the hook, try to cheat.

use super::{Demo, PASSPHRASE, PIN, Scene};
use slingseal_app::catalogue::demo as words;
use std::path::{Path, PathBuf};

use slingseal_app::{
    App, AppError, Issue, PointKind, PointState, PointView, Received, Role, SealView, VerdictView,
    WalkRequest, WalkView, built_in_procedures, sound_answer,
};

use slingseal_app::catalogue::Saying;

use crate::output;
use crate::verbs::verify;

/// Walks every card, everything sound.
pub(super) fn walked_sound(app: &App, view: WalkView) -> Result<WalkView, AppError> {
    answered(app, view, sound_answer)
}

/// Walks every card: what asks for a value of its own is given one, everything else is good.
fn answered(
    app: &App,
    mut view: WalkView,
    value: impl Fn(&WalkView, &PointView) -> String,
) -> Result<WalkView, AppError> {
    while let Some(card) = view.card.clone() {
        let open =
            card.points.iter().find(|point| point.needs_value && point.state == PointState::Unanswered);
        let request = match open {
            None => WalkRequest::CardGood { card: card.number },
            Some(point) => {
                WalkRequest::Answer { card: card.number, point: point.id.clone(), value: value(&view, point) }
            }
        };
        view = app.do_walk(&view.walk, &request)?;
    }
    Ok(view)
}

impl Demo<'_> {
    /// An inspection of what is no load, found sound.
    pub(super) fn listed(&mut self, app: &App, list: &str, of: &str) -> Result<WalkView, AppError> {
        let view = answered(app, app.begin_inspection(list, of)?, |view, point| match point.kind {
            PointKind::Serial => of.to_owned(),
            _ => sound_answer(view, point),
        })?;
        app.do_walk(&view.walk, &WalkRequest::Decide { fit: true, reason: None })
    }

    pub(super) fn credential(
        &mut self,
        authority: &App,
        device: &App,
        holder: &str,
        roles: &[Role],
    ) -> Result<(), AppError> {
        let name = output::file_name(holder);
        let request = self.put(&format!("request-{name}"), &device.make_key(holder, PIN)?.text)?;
        // A season: the demo plays at the present time.
        let expires = authority.now().plus(slingseal_app::Seconds::days(180)).rfc3339();
        let issue = Issue {
            request: self.scan(&request)?,
            roles: roles.to_vec(),
            expires,
            holder: None,
            validity_hours: None,
        };
        let credential =
            self.put(&format!("credential-{name}"), &authority.issue(&issue, PASSPHRASE)?.text)?;
        match device.receive(&self.scan(&credential)?)? {
            Received::Credential { own: true, credential, .. } => {
                let roles = slingseal_app::roles_said(&credential.roles);
                self.say(words::IsCredentialed { holder, roles, until: &credential.expires.dtg });
                Ok(())
            }
            other => Err(AppError::Internal {
                message: format!("a credential was taken for something else: {other:?}").into(),
            }),
        }
    }

    /// Walks every card; on leg 4 the count is one link off.
    pub(super) fn walk(&mut self, app: &App, mut view: WalkView) -> Result<WalkView, AppError> {
        while let Some(card) = view.card.clone() {
            let miscounted = |point: &&PointView| {
                point.id.starts_with("leg-4") && matches!(point.kind, PointKind::Count { .. })
            };
            let open =
                card.points.iter().find(|point| point.needs_value && point.state == PointState::Unanswered);
            let request = match (card.points.iter().find(miscounted), open) {
                (Some(point), _) if view.findings.is_empty() => {
                    WalkRequest::Answer { card: card.number, point: point.id.clone(), value: "4".into() }
                }
                (_, Some(point)) => WalkRequest::Answer {
                    card: card.number,
                    point: point.id.clone(),
                    value: sound_answer(&view, point),
                },
                (_, None) => WalkRequest::CardGood { card: card.number },
            };
            let before = view.findings.len();
            view = app.do_walk(&view.walk, &request)?;
            if let Some(refused) = view.refused {
                return Err(AppError::Internal {
                    message: format!("card {} of the demo was refused: {}", card.number, refused.message)
                        .into(),
                });
            }
            if view.findings.len() > before {
                self.say(words::CardDeficient { card: &card.number, title: &card.title });
                if let Some(change) = view.link_change.clone() {
                    self.say(change);
                }
            }
        }
        Ok(view)
    }

    pub(super) fn mend(&mut self, app: &App, mut view: WalkView) -> Result<WalkView, AppError> {
        for finding in view.findings.clone() {
            let right = WalkRequest::PutRight {
                finding: finding.number,
                by: Some("Mason 5".into()),
                note: None,
                photos: vec![],
            };
            app.do_walk(&view.walk, &right)?;
            let value = finding.needs_value.then(|| "3".to_owned());
            let again = WalkRequest::LookAgain {
                finding: finding.number,
                good: true,
                value,
                note: None,
                photos: vec![],
            };
            view = app.do_walk(&view.walk, &again)?;
            self.say(words::MasonCorrects { finding: &finding.number });
        }
        Ok(view)
    }

    pub(super) fn hook(
        &mut self,
        hookup: &App,
        what: Saying,
        seal: &Path,
        tag: &Path,
        expected: &str,
    ) -> Result<VerdictView, AppError> {
        let verdict = hookup.check(Some(&self.scan(seal)?), Some(&self.scan(tag)?))?;
        let told = what.say(self.setting.language);
        self.say(what);
        self.say(format!("    {}   {}", verdict.word, verdict.first));
        self.verdicts.push(Scene {
            what: told.trim_end_matches(':').to_owned(),
            verdict: verdict.verdict,
            first: verdict.first.clone(),
        });
        if verdict.word == expected {
            Ok(verdict)
        } else {
            Err(AppError::Internal {
                message: format!(
                    "the verdict is {} and not {expected}: {}",
                    verdict.word,
                    verify::text(&verdict, slingseal_app::Language::English)
                )
                .into(),
            })
        }
    }

    pub(super) fn cautions(&mut self, verdict: &VerdictView) {
        for caution in &verdict.cautions {
            self.say(format!("    ! {caution}"));
        }
    }

    /// The seal with one character changed so that it is still well-formed: only the signature tells.
    pub(super) fn altered(&self, app: &App, seal: &SealView) -> Result<PathBuf, AppError> {
        let text: Vec<char> = seal.code.text.chars().collect();
        for at in (5..text.len()).rev() {
            let mut other = text.clone();
            let Some(letter) = other.get_mut(at) else { continue };
            *letter = if *letter == '0' { '1' } else { '0' };
            let other = String::from_iter(other);
            let bad = app
                .check(Some(&other), None)
                .is_ok_and(|verdict| verdict.reasons.iter().any(|reason| reason.code == "bad_signature"));
            if bad {
                return self.put("forged", &other);
            }
        }
        Err(AppError::Internal { message: "no forged seal could be made".into() })
    }

    pub(super) fn stranger(&mut self, tag: &str) -> Result<PathBuf, AppError> {
        let app = self.home("stranger")?;
        let own = app.authority_init("Sela Relief", PASSPHRASE, &built_in_procedures())?;
        app.receive(&own.roster.text)?;
        let request = app.make_key("Anvil 3", PIN)?.text;
        let expires = app.now().plus(slingseal_app::Seconds::days(180)).rfc3339();
        let issue =
            Issue { request, roles: vec![Role::Inspector], expires, holder: None, validity_hours: None };
        app.receive(&app.issue(&issue, PASSPHRASE)?.text)?;
        let view = walked_sound(&app, app.begin_walk(tag)?)?;
        let view = app.do_walk(&view.walk, &WalkRequest::Decide { fit: true, reason: None })?;
        let seal = app.seal(&view.walk, PIN, None)?;
        self.put("stranger", &seal.code.text)
    }
}
