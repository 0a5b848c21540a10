"""Chapter 6, LT1: the rigging of a tag must make sense."""

from text import Refused
from values import items, line, measure, quantity, si, some, uint


def _positive(value, kinds, most=None) -> None:
    if measure(value) not in kinds or value[0] <= 0 or (most is not None and si(value) > most):
        raise Refused("a quantity of the rigging")


def _rating(value) -> None:
    amount, unit, source = items(value, 3)
    _positive(quantity([amount, unit]), ("mass", "force"))
    if source is not None:
        line(source, 48)


def _point(value) -> None:
    parts = items(value, 6)
    for at in (0, 2, 4):
        place = quantity(parts[at : at + 2])
        if measure(place) != "length" or abs(si(place)) > 1000:
            raise Refused("a place")


def _length(amount, unit) -> None:
    _positive(quantity([amount, unit]), ("length",), 1000)


def _chain(value) -> None:
    links, seated, amount, unit, loop = items(value, 5)
    _length(amount, unit)
    if loop not in (0, 1) or isinstance(loop, bool) or uint(links, 16) > 2000 or not 0 < uint(seated, 16) < links:
        raise Refused("a chain")


def _reach(value) -> None:
    head = some(value, 2, 4)
    if head[0] == 0 and len(head) == 3:
        _length(head[1], head[2])
    elif head[0] == 1 and len(head) == 4:
        _length(head[1], head[2])
        _chain(head[3])
    elif head[0] == 2 and len(head) == 2:
        _chain(head[1])
    else:
        raise Refused("length of a leg")


def _leg(value, hooks: list) -> str:
    name, hook, point, reach, stretch, rating, parts = items(value, 7)
    _point(point)
    _reach(reach)
    if stretch is not None:
        share = quantity(items(stretch, 2))
        if measure(share) != "share" or not 0 < si(share) <= 0.5:
            raise Refused("stretch")
    if rating is not None:
        _rating(rating)
    elif not parts:
        raise Refused("a leg without a rating")
    for part in some(parts, 0, 16):
        line(items(part, 2)[0], 32)
        _rating(part[1])
    if hook is None and len(hooks) > 1 or hook is not None and line(hook, 32) not in hooks:
        raise Refused("the hook of a leg")
    return line(name, 32)


def check_rigging(value) -> None:
    """Refuses a rigging that cannot be."""
    centre, hooks, parts, legs = items(value, 4)
    _point(centre)
    names = []
    for hook in some(hooks, 1, 2):
        name, point, limit = items(hook, 3)
        names.append(line(name, 32))
        _point(point)
        if limit is not None:
            _rating(limit)
    for part in some(parts, 0, 16):
        name, hook, rating = items(part, 3)
        line(name, 32)
        if hook is not None and line(hook, 32) not in names:
            raise Refused("the hook of a part")
        _rating(rating)
    seen = [_leg(leg, names) for leg in some(legs, 1, 8)]
    if len(set(seen)) != len(seen) or len(set(names)) != len(names):
        raise Refused("a name twice")
