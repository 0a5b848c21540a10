"""Chapter 5: what stands inside messages."""

import re
import unicodedata

from text import Refused

BIDI = set(range(0x202A, 0x202F)) | set(range(0x2066, 0x206A))
UNITS = {
    1: ("mass", 1.0), 2: ("mass", 0.45359237), 3: ("mass", 1000.0),
    10: ("length", 1.0), 11: ("length", 0.01), 12: ("length", 0.001), 13: ("length", 0.3048), 14: ("length", 0.0254),
    20: ("force", 1.0), 21: ("force", 1000.0), 22: ("force", 4.4482216152605),
    30: ("angle", 1.0), 40: ("share", 0.01),
    60: ("speed", 1852 / 3600), 61: ("speed", 1 / 3.6), 62: ("speed", 1.0),
}
GRAVITY = 9.80665
ROLES = {"inspector": 1, "planner": 2, "hookup": 4, "leader": 8, "instructor": 16}


def line(text, most: int) -> str:
    """A line exactly as its maker would have written it."""
    if not isinstance(text, str) or not text or text != text.strip() or len(text.encode()) > most:
        raise Refused("a line")
    if any(unicodedata.category(letter) == "Cc" or ord(letter) in BIDI for letter in text):
        raise Refused("a control character")
    return text


def coded(text, most: int, letters: str) -> str:
    """A load number, a procedure's id."""
    if not re.fullmatch(rf"[{letters}0-9/.-]+", line(text, most)):
        raise Refused("a character outside its set")
    return text


def load_number(text) -> str:
    return coded(text, 16, "A-Z")


def procedure_id(text) -> str:
    return coded(text, 24, "a-z")


def condition(text) -> str:
    """What a point counts under."""
    if not re.fullmatch(r"[a-z0-9-]+", line(text, 24)):
        raise Refused("a character outside its set")
    return text


def number(value, low: int, high: int) -> int:
    """A whole number within bounds."""
    if isinstance(value, bool) or not isinstance(value, int) or not low <= value <= high:
        raise Refused("a number")
    return value


def uint(value, bits: int) -> int:
    return number(value, 0, 2**bits - 1)


def fixed(value, length: int) -> bytes:
    if not isinstance(value, bytes) or len(value) != length:
        raise Refused("a byte string")
    return value


def items(value, count: int) -> list:
    if not isinstance(value, list) or len(value) != count:
        raise Refused("a list of another length")
    return value


def some(value, least: int, most: int) -> list:
    if not isinstance(value, list) or not least <= len(value) <= most:
        raise Refused("a list too short or too long")
    return value


def quantity(pair: list) -> tuple[int, int]:
    """Thousandths and the unit's number."""
    amount, unit = number(pair[0], -(2**63), 2**63 - 1), number(pair[1], 0, 255)
    if unit >= 100:
        unit -= 100
        if amount % 1000 == 0:
            raise Refused("whole units told in thousandths")
    else:
        amount *= 1000
    if unit not in UNITS or abs(amount) > 10**12:
        raise Refused("a quantity")
    return amount, unit


def measure(value: tuple[int, int]) -> str:
    return UNITS[value[1]][0]


def si(value: tuple[int, int]) -> float:
    return value[0] * UNITS[value[1]][1] / 1000.0


def newtons(value: tuple[int, int]) -> float | None:
    """As a force; a mass with its weight."""
    kind = measure(value)
    return {"mass": si(value) * GRAVITY, "force": si(value)}.get(kind)


def outweighs(one: tuple[int, int], other: tuple[int, int]) -> bool:
    a, b = newtons(one), newtons(other)
    return a is not None and b is not None and a > b * (1 + 1e-9)


def mass(pair) -> tuple[int, int]:
    value = quantity(items(pair, 2))
    if measure(value) != "mass" or value[0] <= 0:
        raise Refused("a mass above zero")
    return value


def grid(text) -> str | None:
    """The shape of a reference; whether the square exists is not tried here."""
    if text is None:
        return None
    found = re.fullmatch(r"(\d\d[C-HJ-NP-X]|[ABYZ])[A-HJ-NP-Z]{2}(\d*)", line(text, 15))
    if not found or len(found[2]) % 2 or len(found[2]) > 10:
        raise Refused("a grid reference")
    return text
