"""Chapter 9: which words count, which is the latest, and the verdict."""

from dataclasses import dataclass, field

from cose import sha256
from messages import Credential, Inspection, Movement, Roster, Seal, Tag, Void, credential, folded
from names import same_person
from text import Refused
from values import ROLES, outweighs

SLACK, SOON = 120, 1_800
NO_GO, WAIT, NOTE = 2, 1, 0
WAITS = {
    "planner_credential_expired", "no_roster", "roster_too_old", "tag_unsigned", "tag_planner_unknown",
    "equipment_overdue", "from_the_future", "clock_behind", "memory_put_back", "copy_out_of_date",
    "procedure_not_approved", "procedure_withdrawn", "equipment_list_not_approved",
    "lifted_before",
}
NOTES = {"expires_soon", "corrected", "tag_not_seen", "rigger_not_known", "movement_unsigned"}
# What each event of a report is called, in the order in which they are told.
EVENTS = {
    2: "refused_at_hook", 3: "lost", 4: "set_down", 5: "derigged", 6: "equipment_returned", 1: "lifted_before",
}
# Which rules are broken on purpose, to see that a comparison notices.
BROKEN: set[str] = set()


@dataclass
class Authority:
    """Whom the device trusts."""

    key: bytes
    roster: Roster | None = None


@dataclass(frozen=True)
class Author:
    """Who stands behind a word."""

    state: str
    credential: Credential | None = None
    authority: Authority | None = field(default=None, compare=False, hash=False)

    def may(self, role: str) -> bool:
        return bool(self.credential.roles & ROLES[role])

    def revoked(self) -> bool:
        roster = self.authority.roster
        return roster is not None and roster.revokes(self.credential)


def grade(code: str) -> int:
    return NOTE if code in NOTES else WAIT if code in WAITS else NO_GO


class Evidence:
    """What the device knows."""

    def __init__(self, authorities, words, now, latest=None, put_back=False, own=()):
        self.authorities, self.now, self.put_back, self.outside = authorities, now, put_back, latest
        self.own = set(own)
        self.words = {word.digest: word for word in words if not isinstance(word, Inspection)}
        self.pieces = {word.digest: word for word in words if isinstance(word, Inspection)}
        self.authors = {}
        # A check page knows what was put into it, until then.
        self.copied_until = None

    def author(self, word) -> Author:
        known = self.authors.get(word.digest)
        if known is None:
            known = self.authors[word.digest] = self._author(word)
        return known

    def _author(self, word) -> Author:
        message = word.message
        if message is None or message.credential is None or message.key_id is not None:
            return Author("unreadable")
        try:
            one = credential(message.credential)
        except Refused:
            return Author("unreadable")
        state = "unknown"
        for authority in self.authorities:
            if sha256(authority.key)[:4] == one.key_id:
                state = "bad_signature"
                if one.message.signed_by(authority.key, "CR1"):
                    if message.signed_by(one.key, word.kind):
                        return Author("known", one, authority)
                    return Author("bad_signature")
        return Author(state)

    def of_load(self, load: str, kind):
        return [word for word in self.words.values() if isinstance(word, kind) and word.load == load]

    # Inspections

    def counts(self, seal: Seal) -> bool:
        author = self.author(seal)
        return author.state == "known" and author.may("inspector") and seal.issued <= author.credential.expires

    def inspections(self, load: str) -> list[Seal]:
        found = [seal for seal in self.of_load(load, Seal) if self.counts(seal)]
        if "revoked refusals vanish" in BROKEN:
            found = [seal for seal in found if not self.author(seal).revoked()]
        return found

    @staticmethod
    def place(seal: Seal):
        return seal.issued, not seal.fit, seal.digest

    def takes_over(self, other: Seal, seal: Seal) -> bool:
        if other.digest == seal.digest:
            return False
        keys_differ = self.author(other).credential.key != self.author(seal).credential.key
        slack = 0 if "no slack" in BROKEN else SLACK
        if keys_differ and abs(other.issued - seal.issued) <= slack and other.fit != seal.fit:
            return not other.fit
        return self.place(other) > self.place(seal)

    def superseding(self, seal: Seal) -> Seal | None:
        over = [one for one in self.inspections(seal.load) if self.takes_over(one, seal)]
        return max(over, key=self.place, default=None)

    def latest_of(self, load: str) -> Seal | None:
        return max(self.inspections(load), key=self.place, default=None)

    def voided(self, seal: Seal) -> bool:
        if "voids are ignored" in BROKEN:
            return False
        for void in self.of_load(seal.load, Void):
            author = self.author(void)
            if void.record == seal.record and author.state == "known" and void.issued <= author.credential.expires:
                return True
        return False

    # Movements

    def report_weight(self, report: Movement) -> str:
        if report.message is None:
            return "counts" if report.digest in self.own else "hint"
        author = self.author(report)
        if author.state == "known":
            return "counts" if report.issued <= author.credential.expires else "hint"
        return "hint" if author.state == "unknown" else "nothing"

    def is_after(self, report: Movement, seal: Seal) -> bool:
        if report.seal == seal.digest:
            return True
        slack = SLACK
        if report.message is not None:
            author = self.author(report)
            if author.state == "known" and author.credential.key == self.author(seal).credential.key:
                slack = 0
        return report.happened >= seal.issued - slack

    def movement_reasons(self, seal: Seal) -> list[str]:
        if "movements are ignored" in BROKEN:
            return []
        reports = [one for one in self.of_load(seal.load, Movement) if self.is_after(one, seal)]
        events = {one.event for one in reports if self.report_weight(one) == "counts"}
        reasons = [code for event, code in EVENTS.items() if event in events]
        if any(self.report_weight(one) == "hint" for one in reports):
            reasons.append("movement_unsigned")
        return reasons

    # Tags

    def tag_signature(self, tag: Tag) -> str:
        if tag.message is None:
            return "unsigned"
        author = self.author(tag)
        if author.state == "unknown":
            return "unknown"
        if author.state != "known":
            return "forged"
        planner = author.may("planner") and tag.planned <= author.credential.expires and not author.revoked()
        return "planner" if planner else "unknown"

    @staticmethod
    def is_of(tag: Tag, seal: Seal) -> bool:
        return tag.digest[:16] == seal.tag and tag.load == seal.load and tag.gross == seal.gross

    def roster_reasons(self, authority: Authority) -> list[str]:
        if authority.roster is None:
            return ["no_roster"]
        return ["roster_too_old"] if self.now > authority.roster.expires else []

    def tag_reasons(self, tag: Tag) -> list[str]:
        reasons, signature = [], self.tag_signature(tag)
        if signature == "planner":
            author = self.author(tag)
            if self.now > author.credential.expires + author.credential.longest:
                reasons.append("planner_credential_expired")
            reasons += self.roster_reasons(author.authority)
        else:
            reasons.append({
                "unsigned": "tag_unsigned", "unknown": "tag_planner_unknown", "forged": "tag_forged",
            }[signature])
        if outweighs(tag.gross, tag.allowable):
            reasons.append("mass_over_allowable")
        for number, piece in enumerate(tag.equipment):
            # Two pieces are two reasons, of one code.
            if piece.rating is not None and outweighs(tag.gross, piece.rating):
                reasons.append(("equipment_rated_below", piece.kind, piece.serial, piece.rating))
            if piece.due is not None and self.now > (piece.due + 1) * 86_400 - 1:
                reasons.append(("equipment_overdue", piece.kind, piece.serial, (piece.due + 1) * 86_400 - 1))
        for kind, serial in tag.pieces():
            found = self.piece(serial)
            if found is not None and not found.fit and "withdrawn pieces fly" not in BROKEN:
                reasons.append(("equipment_withdrawn", kind, serial, found.issued, found.why))
            if found is not None and found.fit and not self.list_approved(found):
                reasons.append(("equipment_list_not_approved", kind, serial))
            if found is not None and found.fit and found.fit_until is not None and self.now > found.fit_until:
                reasons.append(("equipment_overdue", kind, serial, found.fit_until))
        return reasons

    # Pieces

    def piece(self, serial: str) -> Inspection | None:
        """The inspection that says how a piece stands."""
        known = []
        for word in self.pieces.values():
            author = self.author(word)
            if "a stranger's look counts" in BROKEN and author.state == "unknown" and not word.fit:
                author = Author("known", author.credential or credential(word.message.credential), author.authority)
            if (
                word.subject == 1 and folded(word.name) == folded(serial) and author.state == "known"
                and (author.may("inspector") or (not word.fit and author.may("leader")))
                and word.issued <= author.credential.expires and not (word.fit and author.revoked())
            ):
                known.append(word)
        last = max(known, key=self.place, default=None)
        over = [one for one in known if self.takes_over(one, last)]
        return max(over, key=self.place, default=last)

    def list_approved(self, word: Inspection) -> bool:
        """Whether the author's authority approves the list by which a piece was found fit."""
        if "any list finds" in BROKEN:
            return True
        roster = self.author(word).authority.roster
        return roster is not None and roster.edition(word.procedure, word.version, word.thumbprint, word.issued) == "approved"

    # Time

    def latest_time(self, beside) -> int | None:
        times = [] if self.outside is None else [self.outside]
        times += [one.roster.issued for one in self.authorities if one.roster is not None]
        for word in {**self.words, **{word.digest: word for word in beside}}.values():
            if word.message is None:
                continue
            author, when = self.author(word), getattr(word, "planned", None)
            if author.state != "known" or author.revoked():
                continue
            if isinstance(word, Tag):
                if not author.may("planner"):
                    continue
            else:
                when = word.issued
            if when <= author.credential.expires:
                times.append(when)
        return max(times, default=None)

    # Verdicts

    def seal_reasons(self, seal: Seal, scanned: Tag | None) -> list:
        held = [tag for tag in self.of_load(seal.load, Tag) if self.is_of(tag, seal)]
        tags = [scanned] if scanned is not None else sorted(held, key=lambda tag: tag.digest)
        reasons = [reason for tag in tags for reason in self.tag_reasons(tag)]
        author = self.author(seal)
        known = author.state == "known"
        if not known:
            reasons.append({"unknown": "unknown_authority"}.get(author.state, author.state))
        else:
            held_by = author.credential
            if author.revoked():
                reasons.append("revoked")
            if not author.may("inspector"):
                reasons.append("not_an_inspector")
            if seal.issued > held_by.expires:
                reasons.append("credential_expired")
            if seal.valid_until - seal.issued > held_by.longest:
                reasons.append("valid_too_long")
            reasons += self.roster_reasons(author.authority)
            roster = author.authority.roster
            if seal.fit and roster is not None and "any list will do" not in BROKEN:
                edition = roster.edition(*seal.procedure, seal.issued)
                reasons += [] if edition == "approved" else [edition]
            if self.voided(seal):
                reasons.append("voided")
            if self.superseding(seal) is not None:
                reasons.append("superseded")
        if not seal.fit:
            reasons.append("not_fit")
        elif seal.corrected < seal.found:
            reasons.append("open_deficiency")
        if self.now > seal.valid_until:
            reasons.append("expired")
        elif seal.valid_until - self.now < SOON:
            reasons.append("expires_soon")
        latest = self.latest_time([seal] + tags)
        future = seal.issued - self.now > SLACK
        if future:
            reasons.append("from_the_future")
        if latest is not None and latest - self.now > SLACK and not (future and latest <= seal.issued):
            reasons.append("clock_behind")
        if self.put_back:
            reasons.append("memory_put_back")
        if self.copied_until is not None and self.now > self.copied_until:
            reasons.append("copy_out_of_date")
        if seal.corrected > 0:
            reasons.append("corrected")
        if scanned is None:
            reasons.append("tag_not_seen")
            if not tags:
                reasons += ([] if seal.tag_signed else ["tag_unsigned"]) + ["rigger_not_known"]
        for tag in tags:
            if tag.load != seal.load:
                reasons.append("other_load")
            elif not self.is_of(tag, seal):
                reasons.append("tag_changed")
            elif tag.orders_otherwise(seal):
                reasons.append("procedure_not_ordered")
            if known and tag.rigger is None:
                reasons.append("rigger_not_known")
            elif known and same_person(tag.rigger, author.credential.holder):
                reasons.append("own_work")
        if known:
            reasons += self.movement_reasons(seal)
        return reasons

    def judge(self, seal: Seal | Refused | None, tag: Tag | None = None):
        """Verdict and codes of a seal, a tag, or both."""
        if isinstance(seal, Refused):
            return settle((self.tag_reasons(tag) if tag is not None else []) + ["unreadable"])
        if seal is None:
            seal = self.latest_of(tag.load)
            if seal is None:
                return settle(self.tag_reasons(tag) + ["no_inspection_known"])
        return settle(self.seal_reasons(seal, tag))

    # Standing

    def standing(self, seal: Seal) -> str:
        if not self.counts(seal):
            return "no_inspection"
        _, codes = settle(self.seal_reasons(seal, None))
        if "refused_at_hook" in codes:
            return "voided"
        for code in ("voided", "superseded", "not_fit", "expired"):
            if code in codes:
                return code
        return {NO_GO: "refused", WAIT: "wait", NOTE: "fit"}[max(map(grade, codes), default=NOTE)]

    def load_state(self, load: str) -> str | None:
        latest = self.latest_of(load)
        if latest is None:
            return None
        _, codes = settle(self.seal_reasons(latest, None))
        for state, causes in (("not_fit", ("not_fit", "superseded")), ("voided", ("voided", "refused_at_hook")), ("expired", ("expired",))):
            if any(code in codes for code in causes):
                return state
        return {NO_GO: "refused", WAIT: "wait", NOTE: "fit"}[max(map(grade, codes), default=NOTE)]


def settle(reasons: list) -> tuple[str, list[str]]:
    """Sorted by grade, each once, and what they come to."""
    once = list(dict.fromkeys(reasons))
    codes = [reason if isinstance(reason, str) else reason[0] for reason in once]
    codes.sort(key=grade, reverse=True)
    worst = max(map(grade, codes), default=NOTE)
    return {NO_GO: "NO-GO", WAIT: "WAIT", NOTE: "GO"}[worst], codes
