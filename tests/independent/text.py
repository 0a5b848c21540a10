"""Chapter 1: the text of a code."""

ALPHABET = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:"
VALUE = {letter: number for number, letter in enumerate(ALPHABET)}
PREFIXES = ("LT1", "LT2", "SL1", "PI1", "VO1", "MV1", "CS1", "CR1", "KR1", "AU1", "RO1", "RO2", "XK1", "XR1", "CP1", "HV1", "BF1")
LONGEST = 8192
LONGEST_OF = {"CS1": 98308}


class Refused(Exception):
    """The text, or the message in it, is none that this specification knows."""


class NotOurs(Refused):
    """No word that could be judged: another prefix, a later form, another kind than was asked for."""


def decode(text: str) -> bytes:
    """The bytes of which `text` is the one spelling."""
    out = bytearray()
    for at in range(0, len(text), 3):
        part = text[at : at + 3]
        try:
            number = sum(VALUE[letter] * 45**place for place, letter in enumerate(part))
        except KeyError as error:
            raise Refused("a letter that Base45 does not have") from error
        width = len(part) - 1
        if width == 0 or number >= 256**width:
            raise Refused("not Base45")
        out += number.to_bytes(width, "big")
    return bytes(out)


def unwrap(text: str) -> tuple[str, bytes]:
    """Prefix and bytes of a text."""
    text = text.strip("\r\n\t")
    prefix, colon, body = text.partition(":")
    if not colon or prefix not in PREFIXES:
        raise NotOurs("not a prefix of ours")
    if len(text.encode()) > LONGEST_OF.get(prefix, LONGEST):
        raise Refused("longer than any code")
    return prefix, decode(body)
