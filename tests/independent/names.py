"""Chapter 9, "Same person": the skeleton is ICU's (UTS 39)."""

import functools
import unicodedata

import icu

CHECKER = icu.SpoofChecker()


def _skeleton(name: str) -> str:
    return CHECKER.getSkeleton(0, name)


def _look(name: str) -> str:
    seen = _skeleton(_skeleton(name).lower()).lower()
    letters = (letter for letter in seen if letter.isalnum() or unicodedata.category(letter)[0] in "LN")
    return "".join("l" if letter == "i" else letter for letter in letters) or unicodedata.normalize("NFKC", name)


def _looks(name: str) -> set[str]:
    compatible = unicodedata.normalize("NFKC", name)
    return {_look(one) for base in (name, compatible) for one in (base, base.lower(), base.upper())}


@functools.lru_cache(maxsize=4096)
def same_person(one: str, other: str) -> bool:
    """Whether a reader could take two names for one."""
    if all(name.isascii() and "%" not in name for name in (one, other)):
        return _look(one) == _look(other)
    return bool(_looks(one) & _looks(other))
