"""Chapters 3 and 4: the signed message and its signature."""

import functools
import hashlib
from dataclasses import dataclass

import cbor2  # for the bytes to be signed alone: what comes in goes through strict.py
from cryptography.exceptions import InvalidSignature
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PublicKey

import strict
from text import Refused

PRIME = 2**255 - 19
ORDER = 2**252 + 27742317777372353535851937790883648493
CURVE_D = -121665 * pow(121666, PRIME - 2, PRIME) % PRIME


def sha256(*parts: bytes) -> bytes:
    """SHA-256 of the parts, one after another."""
    return hashlib.sha256(b"".join(parts)).digest()


def _decompress(data: bytes):
    """The point of an encoding, or None where it is not canonical or no point."""
    number = int.from_bytes(data, "little")
    sign, y = number >> 255, number & (2**255 - 1)
    if y >= PRIME:
        return None
    square = (y * y - 1) * pow(CURVE_D * y * y + 1, PRIME - 2, PRIME) % PRIME
    x = pow(square, (PRIME + 3) // 8, PRIME)
    if (x * x - square) % PRIME:
        x = x * pow(2, (PRIME - 1) // 4, PRIME) % PRIME
    if (x * x - square) % PRIME:
        return None
    if x == 0 and sign:
        return None
    return (PRIME - x if x & 1 != sign else x), y


def _add(one, other):
    (a, b), (c, d) = one, other
    product = CURVE_D * a * b * c * d % PRIME
    x = (a * d + b * c) * pow(1 + product, PRIME - 2, PRIME)
    y = (b * d + a * c) * pow(1 - product, PRIME - 2, PRIME)
    return x % PRIME, y % PRIME


@functools.lru_cache(maxsize=4096)
def sound_point(data: bytes) -> bool:
    """Whether an encoding is canonical and its point not one of the eight of small order."""
    point = _decompress(data)
    if point is None:
        return False
    for _ in range(3):
        point = _add(point, point)
    return point != (0, 1)


@functools.lru_cache(maxsize=65536)
def signature_holds(key: bytes, message: bytes, signature: bytes) -> bool:
    """Ed25519, strictly: chapter 3."""
    if not (sound_point(key) and sound_point(signature[:32])):
        return False
    if int.from_bytes(signature[32:], "little") >= ORDER:
        return False
    try:
        # The equation without the cofactor.
        Ed25519PublicKey.from_public_bytes(key).verify(signature, message)
    except InvalidSignature:
        return False
    return True


@dataclass(frozen=True)
class Message:
    """A COSE_Sign1, taken apart and not yet verified."""

    key_id: bytes | None
    credential: bytes | None
    claims: dict
    claim_bytes: dict
    protected: bytes
    payload: bytes
    signature: bytes

    def signed_by(self, key: bytes, kind: str) -> bool:
        """Whether the signature is this key's, for a message of this kind."""
        aad = b"slingseal/" + kind.encode()
        structure = cbor2.dumps(["Signature1", self.protected, aad, self.payload])
        return signature_holds(key, structure, self.signature)


CLAIMS = {2: str, 4: int, 6: int, 8: dict, 9: bytes, -65537: object}


def claims_of(payload: bytes, limits=strict.CODE) -> tuple[dict, dict]:
    """The claims by number, and their bytes."""
    claims = strict.load(payload, limits)
    if not isinstance(claims, dict) or any(key not in CLAIMS or isinstance(key, bool) for key in claims):
        raise Refused("claims")
    for key, value in claims.items():
        if isinstance(value, bool) or not isinstance(value, CLAIMS[key]):
            raise Refused("a claim of another type")
    for key in (4, 6):
        if key in claims and not 0 <= claims[key] <= 253402300799:
            raise Refused("a time out of range")
    if 8 in claims:
        cnf = claims[8]
        okp = cnf.get(1) if set(cnf) == {1} else None
        if not isinstance(okp, dict) or set(okp) != {1, -1, -2} or okp[1] != 1 or okp[-1] != 6:
            raise Refused("cnf")
        if not isinstance(okp[-2], bytes) or len(okp[-2]) != 32:
            raise Refused("cnf")
    return claims, strict.map_spans(payload)


def open_message(data: bytes, limits=strict.CODE) -> Message:
    """Takes a signed message apart."""
    outer = strict.load(data, limits)
    if not isinstance(outer, list) or len(outer) != 4:
        raise Refused("outer list")
    protected, unprotected, payload, signature = outer
    if not isinstance(protected, bytes) or unprotected != {} or not isinstance(unprotected, dict):
        raise Refused("header")
    if not isinstance(payload, bytes) or not isinstance(signature, bytes) or len(signature) != 64:
        raise Refused("payload or signature")
    header = strict.load(protected, limits)
    if not isinstance(header, dict) or not set(header) <= {1, 4, 13} or header.get(1) != -19:
        raise Refused("protected header")
    key_id = header.get(4)
    if 4 in header and (not isinstance(key_id, bytes) or len(key_id) != 4):
        raise Refused("key id")
    credential = strict.map_spans(protected).get(13)
    claims, spans = claims_of(payload, limits)
    return Message(key_id, credential, claims, spans, protected, payload, signature)


def key_id_of(key: bytes) -> bytes:
    """What finds a key among a few."""
    return sha256(key)[:4]
