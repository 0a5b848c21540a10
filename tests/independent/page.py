"""Chapters 6 and 9: what a check page carries, opened, and what it makes of what it is shown."""

import base64
import pathlib
import tomllib

import strict
from cose import open_message, sha256
from judgement import Authority, Evidence
from messages import OPEN, Tag, card, credential, roster
from text import Refused, unwrap
from values import ROLES, items, number, some
from vectors import moment

LIMITS = (295_000, 8)
LONGEST = 7 * 86_400
LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"
WORDS = {0: "SL1", 1: "VO1", 3: "PI1", 4: "MV1"}


def thumbprint(data: bytes) -> str:
    digest = sha256(b"slingseal check page", data)
    numbers = [int.from_bytes(digest[at:at + 6], "big") % 24_000 for at in range(0, 30, 6)]
    return " ".join(f"{LETTERS[each // 1_000]}{each % 1_000:03}" for each in numbers)


class Page:
    """CP1, proved by its own cards."""

    def __init__(self, data: bytes):
        message = open_message(data, LIMITS)
        claims = message.claims
        if set(claims) != {4, 6, -65537} or message.credential is None or message.key_id is not None:
            raise Refused("a check page's claims")
        self.until, self.made = claims[4], claims[6]
        if not self.made <= self.until <= self.made + LONGEST:
            raise Refused("how long the page holds")
        given, words = items(claims[-65537], 2)
        self.authorities, self.card_times = [], []
        for one in some(given, 1, 16):
            text, newest = items(one, 2)
            shown = card(self._bytes(text))
            if any(shown.key == known.key for known in self.authorities):
                raise Refused("an authority twice")
            known = Authority(shown.key)
            if newest is not None:
                data_of = self._bytes(newest)
                content = open_message(data_of, strict.ROSTER).claims.get(-65537)
                kind = {2: "RO1", 4: "RO2"}.get(len(content) if isinstance(content, list) else 0, "")
                known.roster = roster(kind, data_of, shown.key)
            self.authorities.append(known)
            self.card_times.append(shown.issued)
        self._prove(message)
        self.words = []
        for one in some(words, 0, 4_000):
            kind, text = items(one, 2)
            word = self._word(number(kind, 0, 4), self._bytes(text))
            author = Evidence(self.authorities, [word], 0).author(word) if word.message is not None else None
            if not isinstance(word, Tag) and (author is None or author.state != "known"):
                raise Refused("a word of nobody")
            self.words.append(word)

    @staticmethod
    def _word(kind: int, data: bytes):
        if kind != 2:
            return OPEN[WORDS[kind]](data)
        try:
            return OPEN["LT1"](data)
        except Refused:
            return OPEN["LT2"](data)

    @staticmethod
    def _bytes(value) -> bytes:
        if not isinstance(value, bytes):
            raise Refused("bytes")
        return value

    def _prove(self, message) -> None:
        one = credential(message.credential)
        behind = [each for each in self.authorities if one.message.signed_by(each.key, "CR1")]
        behind = [each for each in behind if sha256(each.key)[:4] == one.key_id]
        if not behind or not message.signed_by(one.key, "CP1"):
            raise Refused("signature")
        listed = behind[0].roster
        if not one.roles & ROLES["leader"] or self.made > one.expires or (listed and listed.revokes(one)):
            raise Refused("no leader")


def answer(vector: dict):
    """Verdict and codes; none where the page is not to be relied on."""
    data = base64.b64decode(vector["page"])
    try:
        opened = Page(data)
    except Refused:
        return None, []
    if thumbprint(data) != vector["thumbprint"]:
        return "another thumbprint", []
    now = moment(vector["at"])
    latest = max([now, opened.made, *opened.card_times])
    shown = [OPEN[kind](data) for kind, data in map(unwrap, vector["shown"])]
    seal = next((word for word in shown if word.kind == "SL1"), None)
    tag = next((word for word in shown if isinstance(word, Tag)), None)
    evidence = Evidence(opened.authorities, opened.words + [word for word in shown if word.message], now, latest)
    evidence.copied_until = opened.until
    return evidence.judge(seal, tag)


def run(folder: pathlib.Path) -> tuple[int, list[str]]:
    """How many pages were judged, and what disagrees."""
    wrong, count = [], 0
    for path in sorted(folder.glob("*.toml")):
        vector = tomllib.loads(path.read_text())
        expect, count = vector["expect"], count + 1
        found = answer(vector)
        if found != (expect.get("verdict"), expect["reasons"]):
            wrong.append(f"page/{path.stem}: {found}, frozen is {expect}")
    return count, wrong
