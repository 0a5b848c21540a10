"""Chapter 2: one deterministic CBOR item, taken apart by hand; nothing else gets past."""

from text import Refused

CODE = (2_300, 8)
ROSTER = (347_000, 8)


class Raw(bytes):
    """An item as it stands, beside its value."""

    value = None


def load(data: bytes, limits: tuple[int, int] = CODE):
    """The value of exactly one item; maps are dicts, in the order of their keys."""
    most, depth = limits
    if len(data) > most:
        raise Refused("more bytes than its kind has")
    value, at = _item(data, 0, depth)
    if at != len(data):
        raise Refused("bytes behind the end")
    return value


def span(data: bytes, at: int = 0) -> int:
    """Where the item that begins at `at` ends."""
    return _item(data, at, 255)[1]


def map_spans(data: bytes) -> dict:
    """Of a map with integer keys: each value's bytes as they stand."""
    major, count, at = _head(data, 0)
    if major != 5:
        raise Refused("a map was expected")
    spans = {}
    for _ in range(count):
        key, at = _item(data, at, 255)
        end = span(data, at)
        spans[key] = data[at:end]
        at = end
    return spans


def _head(data: bytes, at: int) -> tuple[int, int, int]:
    if at >= len(data):
        raise Refused("cut off")
    major, low = data[at] >> 5, data[at] & 0x1F
    at += 1
    if low < 24:
        return major, low, at
    if low > 27 or major == 7:
        raise Refused("an indefinite length, a float or a reserved head")
    width = 1 << (low - 24)
    if at + width > len(data):
        raise Refused("cut off")
    number = int.from_bytes(data[at : at + width], "big")
    least = {1: 24, 2: 1 << 8, 4: 1 << 16, 8: 1 << 32}[width]
    if number < least:
        raise Refused("a head that is not the shortest")
    return major, number, at + width


def _item(data: bytes, at: int, depth: int):
    major, number, at = _head(data, at)
    if major == 0:
        return number, at
    if major == 1:
        return -1 - number, at
    if major in (2, 3):
        if at + number > len(data):
            raise Refused("cut off")
        part = data[at : at + number]
        if major == 2:
            return part, at + number
        try:
            return part.decode("utf-8", "strict"), at + number
        except UnicodeDecodeError as error:
            raise Refused("text that is not UTF-8") from error
    if major in (4, 5):
        if depth == 0:
            raise Refused("nested too deep")
        if major == 4:
            items = []
            for _ in range(number):
                item, at = _item(data, at, depth - 1)
                items.append(item)
            return items, at
        result, last = {}, b""
        for _ in range(number):
            start = at
            key, at = _item(data, at, depth - 1)
            if data[start:at] <= last:
                raise Refused("keys out of order or twice")
            last = data[start:at]
            if isinstance(key, (list, dict)):
                raise Refused("a key that is no number")
            result[key], at = _item(data, at, depth - 1)
        return result, at
    if major == 7 and number in (20, 21, 22):
        return {20: False, 21: True, 22: None}[number], at
    raise Refused("a tag or a simple value that is not used")
