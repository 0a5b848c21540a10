"""Chapter 10: every frozen vector, judged."""

import datetime
import pathlib
import tomllib

from cose import sha256
from judgement import Authority, Evidence, settle
from messages import OPEN, account_of, card, closing, roster
from text import NotOurs, Refused, unwrap

TRAINING = ("XK1", "XR1")


def moment(text: str) -> int:
    return int(datetime.datetime.fromisoformat(text.replace("Z", "+00:00")).timestamp())


def authority(texts: dict) -> Authority:
    """An authority with the newest of its rosters."""
    _, data = unwrap(texts["card"])
    one = Authority(card(data).key)
    for text in texts["rosters"]:
        kind, data = unwrap(text)
        new = roster(kind, data, one.key)
        if one.roster is None or new.sequence > one.roster.sequence:
            one.roster = new
    return one


def opened(text: str | None, *wanted: str):
    """A word that was shown; a text of another kind is no verdict but a refusal."""
    if text is None:
        return None
    kind, data = unwrap(text)
    if kind not in wanted:
        raise NotOurs(f"a {kind} and not a {wanted[0]}")
    return OPEN[kind](data)


def answer(vector: dict) -> tuple[str, list[str]]:
    """Verdict and codes of a vector; no verdict where the text itself is refused."""
    words = []
    for text in vector.get("holds", []):
        kind, data = unwrap(text)
        words.append(OPEN[kind](data))
    now = moment(vector["at"])
    own = [sha256(unwrap(text)[1]) for text in vector.get("own", [])]
    evidence = Evidence([authority(one) for one in vector["authority"]], words, now, latest=now, own=own)
    seal_text, tag_text = vector.get("seal"), vector.get("tag")
    tag = None
    if seal_text is not None and seal_text.split(":")[0] in TRAINING:
        return settle(["examination"])
    try:
        tag = opened(tag_text, "LT1", "LT2")
        seal = opened(seal_text, "SL1")
    except NotOurs:
        return None, []
    except Refused as error:
        if tag_text is not None and tag is None:
            return settle(["unreadable"])
        seal = error
    return evidence.judge(seal, tag)


def refused(vector: dict) -> list[str]:
    """The reports that a device had to refuse, and that are taken."""
    taken = []
    for text in vector.get("refuses", []):
        kind, data = unwrap(text)
        if kind != "MV1":
            continue
        try:
            report = OPEN[kind](data)
        except Refused:
            continue
        author = Evidence([authority(one) for one in vector["authority"]], [report], 0).author(report)
        if report.message is None or author.state in ("known", "unknown"):
            taken.append(text)
    return taken


def closings(folder: pathlib.Path) -> tuple[int, list[str]]:
    """Closing statements: whether each is taken, and what it says."""
    wrong, count = [], 0
    for path in sorted(folder.glob("*.toml")):
        vector, count = tomllib.loads(path.read_text()), count + 1
        found = None
        try:
            kind, data = unwrap(vector["statement"])
            said = closing(data)
            author = Evidence([authority(one) for one in vector["authority"]], [], 0).author(said)
            if author.state == "known" and author.may("leader") and said.issued <= author.credential.expires:
                words = [unwrap(text)[1] for text in vector["words"]]
                whole = said.account == account_of(words) and said.words == len(set(words))
                found = author.credential.holder, said.account.hex(), list(said.counts), list(said.kinds), whole
        except (NotOurs, Refused):
            pass
        expect = None
        if vector["taken"]:
            expect = vector["by"], vector["account"], vector["counts"], vector["kinds"], True
        if found != expect:
            wrong.append(f"closing/{path.stem}: {found}, frozen is {expect}")
    return count, wrong


def run(folder: pathlib.Path) -> tuple[int, list[str]]:
    """How many vectors were judged, and what disagrees."""
    wrong, count = [], 0
    for path in sorted(folder.glob("*/*.toml")):
        if path.parent.name == "superseded":
            continue
        vector = tomllib.loads(path.read_text())
        expect, count = vector["expect"], count + 1
        verdict = {"HOLD": "WAIT"}.get(expect.get("verdict"), expect.get("verdict"))
        found = answer(vector)
        taken = refused(vector)
        if taken:
            wrong.append(f"{path.parent.name}/{path.stem}: taken, and should be refused: {taken}")
        if found != (verdict, expect["reasons"]):
            wrong.append(f"{path.parent.name}/{path.stem}: {found}, frozen is {verdict} {expect['reasons']}")
    return count, wrong
