//! What came from others and is kept as it came: tags, voids, rosters, authorities, credentials.

use std::collections::{BTreeMap, BTreeSet};

use slingseal_words::{Digest, Time};

use super::author::{Author, author_of, columns};
use super::table::Table;
use super::values::{count_in, count_out};
use super::{Reader, StoreError, Tx};

pub(super) static TAGS: Table = Table::new(
    "tags",
    "digest",
    &[
        "digest",
        "load",
        "planned",
        "received",
        "said",
        "authority",
        "signer",
        "credential",
        "in_time",
        "bytes",
    ],
);
pub(super) static VOIDS: Table = Table::new(
    "voids",
    "digest",
    &[
        "digest",
        "record",
        "load",
        "issued",
        "received",
        "authority",
        "signer",
        "credential",
        "in_time",
        "bytes",
    ],
);
pub(super) static CARDS: Table = Table::new("cards", "digest", &["digest", "key", "received", "bytes"]);
pub(super) static AUTHORITIES: Table =
    Table::new("authorities", "key", &["key", "name", "trusted", "added", "bytes"]);
pub(super) static ROSTERS: Table =
    Table::new("rosters", "digest", &["digest", "authority", "sequence", "issued", "received", "bytes"]);
pub(super) static CREDENTIALS: Table = Table::new(
    "credentials",
    "digest",
    &["digest", "authority", "holder", "roles", "expires", "own", "received", "bytes"],
);

/// A load tag that this device knows.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TagRow {
    /// The digest of its bytes.
    pub digest: Digest,
    /// The load number.
    pub load: String,
    /// Whether it was planned here, and not only seen.
    pub planned: bool,
    /// When it came here.
    pub received: Time,
    /// When it says that it was planned; none until it was read.
    pub said: Option<Time>,
    /// Who signed it.
    pub author: Option<Author>,
    /// The tag.
    pub bytes: Vec<u8>,
}

/// A record withdrawn.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct VoidRow {
    /// The digest of its bytes.
    pub digest: Digest,
    /// The record that it withdraws.
    pub record: Digest,
    /// The load number.
    pub load: String,
    /// When it was signed.
    pub issued: Time,
    /// When it came here.
    pub received: Time,
    /// Who signed it.
    pub author: Option<Author>,
    /// The void.
    pub bytes: Vec<u8>,
}

/// An authority and its key.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AuthorityRow {
    /// The Ed25519 public key.
    pub key: [u8; 32],
    /// What it calls itself.
    pub name: String,
    /// Whether this device trusts it.
    pub trusted: bool,
    /// When it was added.
    pub added: Time,
    /// Whatever the facade keeps of it.
    pub bytes: Vec<u8>,
}

/// The newest roster of an authority.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RosterRow {
    /// The authority's key.
    pub authority: [u8; 32],
    /// Its number.
    pub sequence: u64,
    /// When it was issued.
    pub issued: Time,
    /// When it came here.
    pub received: Time,
    /// The roster.
    pub bytes: Vec<u8>,
}

/// A credential that this device knows.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CredentialRow {
    /// The digest of its bytes.
    pub digest: Digest,
    /// The authority's key.
    pub authority: [u8; 32],
    /// Whose it is.
    pub holder: String,
    /// The roles, as the facade writes them.
    pub roles: String,
    /// Until when.
    pub expires: Time,
    /// Whether it is this device's own.
    pub own: bool,
    /// When it came here.
    pub received: Time,
    /// The credential.
    pub bytes: Vec<u8>,
}

pub(super) fn make_tag(row: &rusqlite::Row<'_>) -> rusqlite::Result<TagRow> {
    Ok(TagRow {
        digest: row.get(0)?,
        load: row.get(1)?,
        planned: row.get(2)?,
        received: row.get(3)?,
        said: row.get(4)?,
        author: author_of(row, 5)?,
        bytes: row.get(9)?,
    })
}

pub(super) fn make_void(row: &rusqlite::Row<'_>) -> rusqlite::Result<VoidRow> {
    Ok(VoidRow {
        digest: row.get(0)?,
        record: row.get(1)?,
        load: row.get(2)?,
        issued: row.get(3)?,
        received: row.get(4)?,
        author: author_of(row, 5)?,
        bytes: row.get(9)?,
    })
}

fn make_authority(row: &rusqlite::Row<'_>) -> rusqlite::Result<AuthorityRow> {
    Ok(AuthorityRow {
        key: row.get(0)?,
        name: row.get(1)?,
        trusted: row.get(2)?,
        added: row.get(3)?,
        bytes: row.get(4)?,
    })
}

fn make_roster(row: &rusqlite::Row<'_>) -> rusqlite::Result<RosterRow> {
    Ok(RosterRow {
        authority: row.get(1)?,
        sequence: count_out(row, 2)?,
        issued: row.get(3)?,
        received: row.get(4)?,
        bytes: row.get(5)?,
    })
}

fn make_credential(row: &rusqlite::Row<'_>) -> rusqlite::Result<CredentialRow> {
    Ok(CredentialRow {
        digest: row.get(0)?,
        authority: row.get(1)?,
        holder: row.get(2)?,
        roles: row.get(3)?,
        expires: row.get(4)?,
        own: row.get(5)?,
        received: row.get(6)?,
        bytes: row.get(7)?,
    })
}

impl Tx<'_> {
    /// Keeps a tag; `false` where it was known. A tag that was only seen becomes planned, never the other way.
    pub fn put_tag(&self, tag: &TagRow) -> Result<bool, StoreError> {
        let (authority, key, credential, in_time) = columns(tag.author.as_ref());
        let row = (
            tag.digest,
            &tag.load,
            tag.planned,
            tag.received,
            tag.said,
            authority,
            key,
            credential,
            in_time,
            &tag.bytes,
        );
        let new = self.run(&TAGS.insert("OR IGNORE"), row)? > 0;
        if !new && tag.planned {
            self.run("UPDATE tags SET planned = 1 WHERE digest = ?1", [tag.digest])?;
            self.run(&TAGS.reseal("WHERE digest = ?1"), [tag.digest])?;
        }
        Ok(new)
    }

    /// Keeps when a tag says that it was planned and who signed it, where that is verified anew.
    pub fn set_tag_author(&self, tag: Digest, said: Time, author: Option<&Author>) -> Result<(), StoreError> {
        let (authority, key, credential, in_time) = columns(author);
        let changed = ["said", "authority", "signer", "credential", "in_time"];
        let sql = TAGS.update(&changed, "WHERE digest = ?6");
        self.run(&sql, (said, authority, key, credential, in_time, tag))?;
        Ok(())
    }

    /// Keeps a void; `false` where it was known.
    pub fn put_void(&self, void: &VoidRow) -> Result<bool, StoreError> {
        let (authority, key, credential, in_time) = columns(void.author.as_ref());
        let row = (
            void.digest,
            void.record,
            &void.load,
            void.issued,
            void.received,
            authority,
            key,
            credential,
            in_time,
            &void.bytes,
        );
        Ok(self.run(&VOIDS.insert("OR IGNORE"), row)? > 0)
    }

    /// Keeps who signed a void, where that is verified anew.
    pub fn set_void_author(&self, void: Digest, author: Option<&Author>) -> Result<(), StoreError> {
        let (authority, key, credential, in_time) = columns(author);
        let sql = VOIDS.update(&["authority", "signer", "credential", "in_time"], "WHERE digest = ?5");
        self.run(&sql, (authority, key, credential, in_time, void))?;
        Ok(())
    }

    /// Writes an authority, new or changed.
    pub fn put_authority(&self, authority: &AuthorityRow) -> Result<(), StoreError> {
        let AuthorityRow { key, name, trusted, added, bytes } = authority;
        self.run(&AUTHORITIES.insert("OR REPLACE"), (key, name, trusted, added, bytes))?;
        self.run(&CARDS.insert("OR IGNORE"), (Digest::of(bytes), key, added, bytes))?;
        Ok(())
    }

    /// Keeps a roster; `false` where it is not newer than the one that holds. An older one is kept too and holds nothing.
    pub fn put_roster(&self, roster: &RosterRow) -> Result<bool, StoreError> {
        let newer = self.roster(&roster.authority)?.is_none_or(|known| known.sequence < roster.sequence);
        let row = (
            Digest::of(&roster.bytes),
            roster.authority,
            count_in(roster.sequence)?,
            roster.issued,
            roster.received,
            &roster.bytes,
        );
        self.run(&ROSTERS.insert("OR IGNORE"), row)?;
        Ok(newer)
    }

    /// Keeps a credential; `false` where it was known. A known one becomes this device's own, never the other way.
    pub fn put_credential(&self, credential: &CredentialRow) -> Result<bool, StoreError> {
        let row = (
            credential.digest,
            credential.authority,
            &credential.holder,
            &credential.roles,
            credential.expires,
            credential.own,
            credential.received,
            &credential.bytes,
        );
        let new = self.run(&CREDENTIALS.insert("OR IGNORE"), row)? > 0;
        if !new && credential.own {
            self.run("UPDATE credentials SET own = 1 WHERE digest = ?1", [credential.digest])?;
            self.run(&CREDENTIALS.reseal("WHERE digest = ?1"), [credential.digest])?;
        }
        Ok(new)
    }
}

impl Reader<'_> {
    /// A tag.
    pub fn tag(&self, digest: Digest) -> Result<Option<TagRow>, StoreError> {
        self.row(&TAGS, "WHERE digest = ?1", [digest], make_tag)
    }

    /// The tags of a load, the last received first.
    pub fn tags_of(&self, load: &str) -> Result<Vec<TagRow>, StoreError> {
        self.rows(&TAGS, "WHERE load = ?1 ORDER BY received DESC, digest", [load], make_tag)
    }

    /// All tags planned here, the last first, at most so many.
    pub fn tags_planned(&self, most: u32) -> Result<Vec<TagRow>, StoreError> {
        self.rows(&TAGS, "WHERE planned = 1 ORDER BY received DESC, digest LIMIT ?1", [most], make_tag)
    }

    /// All tags, sorted by digest.
    pub fn tags(&self) -> Result<Vec<TagRow>, StoreError> {
        self.rows(&TAGS, "ORDER BY digest", [], make_tag)
    }

    /// The voids of a record, the first signed first. Looks through the table itself: a decayed index must not hide a void
    /// and turn a NO-GO into a GO.
    pub fn voids_of(&self, record: Digest) -> Result<Vec<VoidRow>, StoreError> {
        self.rows(&VOIDS, "NOT INDEXED WHERE record = ?1 ORDER BY issued, digest", [record], make_void)
    }

    /// The voids of a load, the first signed first. Looks through the table itself, as `voids_of` does.
    pub fn voids_of_load(&self, load: &str) -> Result<Vec<VoidRow>, StoreError> {
        self.rows(&VOIDS, "NOT INDEXED WHERE load = ?1 ORDER BY issued, digest", [load], make_void)
    }

    /// The voids of each of these loads that has any, the first signed first: the table itself is looked through once for all.
    pub fn voids_of_loads(
        &self,
        loads: &BTreeSet<&str>,
    ) -> Result<BTreeMap<String, Vec<VoidRow>>, StoreError> {
        let mut places: Vec<i64> = Vec::new();
        self.ask("SELECT rowid, load FROM voids NOT INDEXED", |statement| {
            let mut rows = statement.query([])?;
            while let Some(row) = rows.next()? {
                if row.get_ref(1)?.as_str().is_ok_and(|load| loads.contains(load)) {
                    places.push(row.get(0)?);
                }
            }
            Ok(())
        })?;
        let mut voids: BTreeMap<String, Vec<VoidRow>> = BTreeMap::new();
        for place in places {
            if let Some(row) = self.row(&VOIDS, "WHERE rowid = ?1", [place], make_void)? {
                voids.entry(row.load.clone()).or_default().push(row);
            }
        }
        voids.values_mut().for_each(|voids| voids.sort_by_key(|row| (row.issued, row.digest)));
        Ok(voids)
    }

    /// The loads of which a void is here, by the table itself.
    pub fn voided_loads(&self) -> Result<BTreeSet<String>, StoreError> {
        self.ask("SELECT load FROM voids NOT INDEXED", |statement| {
            statement.query_map([], |row| row.get(0))?.collect()
        })
    }

    /// All voids, sorted by digest.
    pub fn voids(&self) -> Result<Vec<VoidRow>, StoreError> {
        self.rows(&VOIDS, "ORDER BY digest", [], make_void)
    }

    /// All authorities, by name.
    pub fn authorities(&self) -> Result<Vec<AuthorityRow>, StoreError> {
        self.rows(&AUTHORITIES, "ORDER BY name, key", [], make_authority)
    }

    /// The newest roster of an authority. Looks through the table itself, as `voids_of` does: a decayed index must not hide
    /// a revocation.
    pub fn roster(&self, authority: &[u8; 32]) -> Result<Option<RosterRow>, StoreError> {
        let rest = "NOT INDEXED WHERE authority = ?1 ORDER BY sequence DESC, digest";
        self.row(&ROSTERS, rest, [authority], make_roster)
    }

    /// The newest roster of each authority.
    pub fn rosters(&self) -> Result<Vec<RosterRow>, StoreError> {
        let mut all =
            self.rows(&ROSTERS, "NOT INDEXED ORDER BY authority, sequence DESC, digest", [], make_roster)?;
        all.dedup_by_key(|row| row.authority);
        Ok(all)
    }

    /// The cards of all authorities that were ever given, each under the digest of its bytes.
    pub fn cards(&self) -> Result<Vec<(Digest, Vec<u8>)>, StoreError> {
        self.rows(&CARDS, "ORDER BY digest", [], |row| Ok((row.get(0)?, row.get(3)?)))
    }

    /// All credentials, the first to expire first.
    pub fn credentials(&self) -> Result<Vec<CredentialRow>, StoreError> {
        self.rows(&CREDENTIALS, "ORDER BY expires, digest", [], make_credential)
    }

    /// This device's own credentials, the last to expire first.
    pub fn own_credentials(&self) -> Result<Vec<CredentialRow>, StoreError> {
        self.rows(&CREDENTIALS, "WHERE own = 1 ORDER BY expires DESC, digest", [], make_credential)
    }
}
