"""Histories of loads that the program made and judged, one JSON object a line; judged anew."""

import json

from judgement import Authority, Evidence
from messages import OPEN, card, roster
from text import unwrap


def _word(text: str):
    kind, data = unwrap(text)
    return OPEN[kind](data)


def _differences(history: dict) -> list[str]:
    authority = Authority(card(unwrap(history["card"])[1]).key)
    kind, data = unwrap(history["roster"])
    authority.roster = roster(kind, data, authority.key)
    words, tag, expect = [_word(text) for text in history["words"]], _word(history["tag"]), history["expect"]
    own = [bytes.fromhex(digest) for digest in history["own"]]
    evidence = Evidence([authority], words, history["now"], own=own)
    seals = {word.digest.hex(): word for word in words if word.kind == "SL1"}
    found = {
        "tag": evidence.judge(None, tag),
        "load": evidence.load_state(tag.load),
        "inspections": {
            digest: evidence.standing(seal) for digest, seal in seals.items() if evidence.counts(seal)
        },
        "seals": {
            digest: {"beside": evidence.judge(seal, tag), "alone": evidence.judge(seal, None)}
            for digest, seal in seals.items()
        },
    }
    # JSON knows no tuples.
    found = json.loads(json.dumps(found))
    return [f"{part}: {found[part]}, the program says {expect[part]}" for part in found if found[part] != expect[part]]


def run(lines) -> tuple[int, list[str]]:
    """How many histories were judged, and what disagrees."""
    count, wrong = 0, []
    for line in lines:
        if line.strip():
            count += 1
            differences = _differences(json.loads(line))
            if differences:
                wrong.append(f"history {count}: {'; '.join(differences)}")
    return count, wrong
