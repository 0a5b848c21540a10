"""Chapter 6: each kind that the judgement needs."""

from dataclasses import dataclass, field

import strict
from cose import Message, claims_of, key_id_of, open_message, sha256, sound_point
from rigging import check_rigging
from text import Refused
from values import (
    condition, fixed, grid, items, line, load_number, mass, measure, newtons, number, procedure_id, quantity, some, uint,
)


def _content(message: Message, names: set[int]) -> dict:
    if set(message.claims) != names:
        raise Refused("other claims than its kind has")
    return message.claims


def _authority_header(message: Message) -> None:
    if message.key_id is None or message.credential is not None:
        raise Refused("header")


def _holder_header(message: Message) -> None:
    if message.credential is None or message.key_id is not None:
        raise Refused("header")


@dataclass(frozen=True)
class Card:
    """AU1."""

    name: str
    key: bytes
    issued: int


def card(data: bytes) -> Card:
    message = open_message(data)
    claims = _content(message, {2, 6, 8})
    if message.key_id is not None or message.credential is not None:
        raise Refused("header")
    key = claims[8][1][-2]
    if not message.signed_by(key, "AU1"):
        raise Refused("signature")
    return Card(line(claims[2], 32), key, claims[6])


@dataclass(frozen=True)
class Credential:
    """CR1, read and not yet believed."""

    holder: str
    roles: int
    expires: int
    longest: int
    key: bytes
    key_id: bytes
    id: bytes
    message: Message


def credential(data: bytes) -> Credential:
    message = open_message(data)
    _authority_header(message)
    claims = message.claims
    if set(claims) - {-65537} != {2, 4, 8, 9}:
        raise Refused("other claims than its kind has")
    roles = fixed(claims[9], 1)[0]
    if roles > 31:
        raise Refused("roles")
    if not sound_point(claims[8][1][-2]):
        raise Refused("a key that proves nothing")
    longest = 86_400
    if -65537 in claims:
        longest = number(claims[-65537], 1, 2**63 - 1)
        if longest == 86_400:
            raise Refused("the usual validity written out")
    return Credential(
        line(claims[2], 24), roles, claims[4], longest, claims[8][1][-2], message.key_id, sha256(data)[:8], message
    )


@dataclass(frozen=True)
class Roster:
    """RO1 or RO2."""

    sequence: int
    issued: int
    expires: int
    revoked: frozenset
    keys: frozenset
    approved: tuple = ()

    def edition(self, procedure: str, version: int, print_: bytes, when: int) -> str:
        """How an edition stands for an inspection made then."""
        found = "procedure_not_approved"
        for id_, number_, thumbprint, since, withdrawn in self.approved:
            if (id_, number_) == (procedure, version) and thumbprint[:len(print_)] == print_:
                if since <= when and (withdrawn is None or when < withdrawn):
                    return "approved"
                if withdrawn is not None and withdrawn <= when:
                    found = "procedure_withdrawn"
        return found

    def revokes(self, one: Credential) -> bool:
        return one.id in self.revoked or sha256(one.key)[:8] in self.keys


def _sorted(rows: list) -> None:
    if any(a >= b for a, b in zip(rows, rows[1:])):
        raise Refused("a list out of order")


def roster(kind: str, data: bytes, key: bytes) -> Roster:
    message = open_message(data, strict.ROSTER)
    claims = _content(message, {4, 6, -65537})
    if message.key_id != key_id_of(key) or message.credential is not None or not message.signed_by(key, kind):
        raise Refused("not this authority's")
    content = items(claims[-65537], 2 if kind == "RO1" else 4)
    revoked = [fixed(one, 8) for one in some(content[1], 0, 10_000)]
    _sorted(revoked)
    keys, approved = [], []
    if kind == "RO2":
        keys = [fixed(items(one, 2)[0], 8) for one in some(content[2], 0, 10_000)]
        _sorted(keys)
        for one in content[2]:
            number(one[1], 0, 253402300799)
        editions = []
        for one in some(content[3], 0, 1_000):
            procedure, version, thumbprint, since, withdrawn = items(one, 5)
            procedure_id(procedure), number(version, 1, 9999), number(since, 0, 253402300799)
            if withdrawn is not None and number(withdrawn, 0, 253402300799) < since:
                raise Refused("withdrawn before it was approved")
            editions.append((procedure.encode(), version, fixed(thumbprint, 16)))
            approved.append((procedure, version, thumbprint, since, withdrawn))
        _sorted(editions)
    return Roster(uint(content[0], 32), claims[6], claims[4], frozenset(revoked), frozenset(keys), tuple(approved))


def folded(text: str) -> str:
    """ASCII letters without case."""
    return "".join(letter.lower() if letter.isascii() else letter for letter in text)


@dataclass(frozen=True)
class Piece:
    """One piece of equipment."""

    kind: str
    serial: str
    rating: tuple | None
    due: int | None


@dataclass(frozen=True)
class Tag:
    """LT1 or LT2."""

    load: str
    planned: int
    gross: tuple
    allowable: tuple
    rigger: str | None
    equipment: tuple
    legs: tuple
    procedure: str
    edition: tuple | None
    digest: bytes
    message: Message | None = field(repr=False)
    kind: str

    def pieces(self):
        """Serial numbers with what each is, once."""
        named = [(piece.kind, piece.serial) for piece in self.equipment]
        for leg, serial in self.legs:
            if folded(serial) not in {folded(known) for _, known in named}:
                named.append((leg, serial))
        return named

    def orders_otherwise(self, seal) -> bool:
        """Whether another procedure, or another edition of it, was walked than the tag orders."""
        procedure, version, print_ = seal.procedure
        if self.procedure != procedure:
            return True
        if self.edition is None:
            return False
        return self.edition[0] != version or self.edition[1][:len(print_)] != print_


def _rating(value):
    if value is None:
        return None
    amount, unit, source = items(value, 3)
    rating = quantity([amount, unit])
    line(source, 48)
    force = newtons(rating)
    if force is None or force <= 0:
        raise Refused("a rating")
    return rating


def _piece(value) -> Piece:
    kind, serial, rating, due = items(value, 4)
    due = None if due is None else number(due, -(2**31), 2**31 - 1)
    return Piece(line(kind, 32), line(serial, 24), _rating(rating), due)


def _zone(value) -> None:
    name, reference = items(value, 2)
    line(name, 24), grid(reference)


def _basis(content: dict) -> None:
    """The pairs that only LT2 has."""
    if 12 in content:
        title, edition = items(content[12], 2)
        line(title, 48), line(edition, 32)
    if 13 in content:
        legs = [items(one, 2) for one in some(content[13], 1, 8)]
        for leg, serial in legs:
            line(leg, 32), line(serial, 24)
        if len({leg for leg, _ in legs}) != len(legs):
            raise Refused("a leg twice")
    if 14 in content:
        number(content[14], 1, 4)
    if 15 in content:
        amount, unit, source = items(content[15], 3)
        limit = quantity([amount, unit])
        line(source, 48)
        if measure(limit) != "speed" or limit[0] <= 0:
            raise Refused("a speed above zero")
    if 16 in content:
        version, thumbprint = items(content[16], 2)
        number(version, 1, 9999), fixed(thumbprint, 16)
    if 17 in content:
        _sorted([condition(one).encode() for one in some(content[17], 0, 12)])


def tag_first(data: bytes) -> Tag:
    return _tag(data, "LT1")


def tag_second(data: bytes) -> Tag:
    return _tag(data, "LT2")


def _tag(data: bytes, kind: str) -> Tag:
    outer = strict.load(data)
    message = None
    if isinstance(outer, list):
        message = open_message(data)
        claims, spans = message.claims, message.claim_bytes
    else:
        claims, spans = claims_of(data)
    if set(claims) != {2, 6, -65537}:
        raise Refused("other claims than its kind has")
    content = claims[-65537]
    if not isinstance(content, dict) or not {1, 2, 3, 4, 5, 6, 7} <= set(content) <= set(range(1, 18)):
        raise Refused("content of a tag")
    if (kind == "LT2") != (max(content) > 11):
        raise Refused("a tag of the other form")
    _basis(content)
    line(content[1], 48), procedure_id(content[2]), line(content[4], 32), _zone(content[6]), _zone(content[7])
    for leg, link in (items(one, 2) for one in (some(content[10], 1, 8) if 10 in content else [])):
        line(leg, 32), uint(link, 16)
    if 11 in content:
        check_rigging(content[11])
    return Tag(
        load_number(claims[2]),
        claims[6],
        mass(content[3]),
        mass(content[5]),
        line(content[8], 24) if 8 in content else None,
        tuple(_piece(one) for one in (some(content[9], 1, 12) if 9 in content else [])),
        tuple(tuple(one) for one in content.get(13, [])),
        content[2],
        tuple(content[16]) if 16 in content else None,
        sha256(data),
        message,
        kind,
    )


@dataclass(frozen=True)
class Seal:
    """SL1."""

    load: str
    issued: int
    valid_until: int
    tag: bytes
    fit: bool
    tag_signed: bool
    found: int
    corrected: int
    gross: tuple
    record: bytes
    procedure: tuple
    digest: bytes
    message: Message = field(repr=False)

    kind = "SL1"


def seal(data: bytes) -> Seal:
    message = open_message(data)
    claims = _content(message, {2, 4, 6, -65537})
    part = items(claims[-65537], 10)
    procedure = procedure_id(part[2]), uint(part[3], 32), fixed(part[4], 4)
    gross = quantity(part[7:9])
    found, corrected, flags = uint(part[5], 16), uint(part[6], 16), number(part[1], 0, 3)
    if corrected > found or claims[4] < claims[6]:
        raise Refused("counts or validity of a seal")
    mass(part[7:9])
    return Seal(
        load_number(claims[2]), claims[6], claims[4], fixed(part[0], 16), bool(flags & 1), bool(flags & 2),
        found, corrected, gross, fixed(part[9], 32), procedure, sha256(data), message,
    )


@dataclass(frozen=True)
class Void:
    """VO1."""

    load: str
    issued: int
    record: bytes
    digest: bytes
    message: Message = field(repr=False)

    kind = "VO1"


def void(data: bytes) -> Void:
    message = open_message(data)
    claims = _content(message, {2, 6, -65537})
    record, cause, note = items(claims[-65537], 3)
    number(cause, 0, 4)
    if note is not None:
        line(note, 280)
    return Void(load_number(claims[2]), claims[6], fixed(record, 32), sha256(data), message)


@dataclass(frozen=True)
class Inspection:
    """PI1."""

    subject: int
    name: str
    issued: int
    fit_until: int | None
    fit: bool
    procedure: str
    version: int
    thumbprint: bytes
    why: str | None
    digest: bytes
    message: Message = field(repr=False)

    kind = "PI1"


def inspection(data: bytes) -> Inspection:
    message = open_message(data)
    claims = message.claims
    if set(claims) - {4} != {2, 6, -65537}:
        raise Refused("other claims than its kind has")
    subject, outcome, procedure, version, thumbprint, found, corrected, why, record = items(claims[-65537], 9)
    number(subject, 1, 4), number(outcome, 0, 1), procedure_id(procedure), number(version, 1, 9999)
    fixed(thumbprint, 16), uint(found, 16), uint(corrected, 16), fixed(record, 32)
    why = None if why is None else line(why, 280)
    until = claims.get(4)
    fit = outcome == 1
    if corrected > found or (fit and (corrected != found or why is not None)) or (not fit and until is not None):
        raise Refused("an inspection that contradicts itself")
    if until is not None and until < claims[6]:
        raise Refused("fit until before it was issued")
    return Inspection(
        subject, line(claims[2], 24), claims[6], until, fit, procedure, version, thumbprint, why, sha256(data), message
    )


@dataclass(frozen=True)
class Movement:
    """MV1."""

    load: str
    issued: int
    event: int
    happened: int
    seal: bytes | None
    digest: bytes
    message: Message | None = field(repr=False)

    kind = "MV1"


def _moved_piece(value) -> str:
    serial, state = items(value, 2)
    number(state, 1, 3)
    return line(serial, 24)


def movement(data: bytes) -> Movement:
    outer = strict.load(data)
    message = None
    if isinstance(outer, list):
        message = open_message(data)
        claims = message.claims
    else:
        claims, _ = claims_of(data)
    if set(claims) != {2, 6, -65537}:
        raise Refused("other claims than its kind has")
    content = claims[-65537]
    if not isinstance(content, dict) or not {1, 2} <= set(content) <= set(range(1, 12)):
        raise Refused("content of a report")
    event = number(content[1], 1, 6)
    device, sequence, journal, before = items(content[2], 4)
    fixed(device, 16), number(sequence, 0, 2**63 - 1), fixed(journal, 32)
    if before is not None:
        fixed(before, 32)
    if (event == 2) != (4 in content):
        raise Refused("a cause, or none")
    if 4 in content:
        number(content[4], 0, 8)
    happened = claims[6]
    if 3 in content:
        happened = number(content[3], 0, 253402300799)
        if happened >= claims[6]:
            raise Refused("a time that is left out, or that is ahead")
    seal_named = fixed(content[5], 32) if 5 in content else None
    if 6 in content:
        verdict, reason = items(content[6], 2)
        number(verdict, 0, 2)
        plain = set("abcdefghijklmnopqrstuvwxyz0123456789_")
        if reason is not None and not (isinstance(reason, str) and 1 <= len(reason) <= 40 and set(reason) <= plain):
            raise Refused("a reason")
    if 7 in content:
        line(content[7], 32)
    if 8 in content:
        if content[8] is None:
            raise Refused("a grid reference")
        grid(content[8])
    for photo in some(content[9], 1, 8) if 9 in content else []:
        fixed(photo, 32)
    serials = [_moved_piece(one) for one in (some(content[10], 1, 24) if 10 in content else [])]
    if len(set(serials)) != len(serials):
        raise Refused("a piece twice")
    if 11 in content:
        line(content[11], 280)
    return Movement(load_number(claims[2]), claims[6], event, happened, seal_named, sha256(data), message)


@dataclass(frozen=True)
class Closing:
    """CS1."""

    issued: int
    account: bytes
    words: int
    counts: tuple
    kinds: tuple
    digest: bytes
    message: Message = field(repr=False)

    kind = "CS1"


CLOSING_LIMITS = (65_536, 8)


def _explained(value) -> str:
    kind, subject, note = items(value, 3)
    if not (isinstance(kind, str) and 1 <= len(kind) <= 24 and set(kind) <= set("abcdefghijklmnopqrstuvwxyz_")):
        raise Refused("kind of a point")
    line(subject, 40), line(note, 280)
    return kind


def closing(data: bytes) -> Closing:
    message = open_message(data, CLOSING_LIMITS)
    claims = message.claims
    if set(claims) != {6, -65537}:
        raise Refused("other claims than its kind has")
    name, days, account, words, counts, points = items(claims[-65537], 6)
    line(name, 40)
    if days is not None:
        begin, end = items(days, 2)
        if number(begin, 0, 253402300799) >= number(end, 0, 253402300799):
            raise Refused("days")
    counted = tuple(uint(count, 32) for count in items(counts, 5))
    kinds = tuple(_explained(one) for one in some(points, 0, 200))
    return Closing(claims[6], fixed(account, 32), uint(words, 32), counted, kinds, sha256(data), message)


def account_of(words: list[bytes]) -> bytes:
    """The digest of an account: of each word's digest once, ascending."""
    return sha256(b"slingseal account 1", *sorted({sha256(word) for word in words}))


OPEN = {
    "PI1": inspection, "LT1": tag_first, "LT2": tag_second, "SL1": seal, "VO1": void, "MV1": movement,
}
