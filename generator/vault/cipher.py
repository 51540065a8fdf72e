"""The one module that speaks to the cipher library: bytes and keys in, bytes out.

Stretching and deriving: RFC 8018, RFC 5869. Locking: AES-256-GCM (NIST SP 800-38D). Signing: ECDSA P-256 (FIPS 186-5).
"""

from __future__ import annotations

import hashlib
import hmac

from cryptography.exceptions import InvalidSignature, InvalidTag
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.asymmetric.utils import decode_dss_signature, encode_dss_signature
from cryptography.hazmat.primitives.ciphers.aead import AESGCM
from cryptography.hazmat.primitives.kdf.hkdf import HKDF

NONCE_BYTES = 12
KEY_BYTES = 32
TAG_BYTES = 16
POINT_BYTES = 65
SIGNATURE_BYTES = 64
_HALF = SIGNATURE_BYTES // 2


class NotOpened(Exception):
    """These bytes were not made with our key, or were changed since."""


def stretch(secret: bytes, salt: bytes, rounds: int, length: int = KEY_BYTES) -> bytes:
    """PBKDF2-HMAC-SHA256."""
    return hashlib.pbkdf2_hmac("sha256", secret, salt, rounds, length)


def derive(key: bytes, info: str | bytes, length: int = KEY_BYTES, salt: bytes = b"") -> bytes:
    """HKDF-SHA256."""
    label = info.encode() if isinstance(info, str) else info
    return HKDF(algorithm=hashes.SHA256(), length=length, salt=salt or None, info=label).derive(key)


def mac(key: bytes, content: bytes) -> bytes:
    """HMAC-SHA256, 32 bytes."""
    return hmac.new(key, content, hashlib.sha256).digest()


def lock(key: bytes, nonce: bytes, content: bytes, bound: bytes) -> bytes:
    """Ciphertext and tag; `bound` is checked on opening but not stored."""
    return AESGCM(key).encrypt(nonce, content, bound)


def unlock(key: bytes, nonce: bytes, sealed: bytes, bound: bytes) -> bytes:
    """The content, or NotOpened."""
    if len(nonce) < 8 or len(sealed) < TAG_BYTES:
        raise NotOpened("too short")
    try:
        return AESGCM(key).decrypt(nonce, sealed, bound)
    except InvalidTag:
        raise NotOpened("not our key, or changed") from None


def new_signer() -> bytes:
    """A fresh private signing key, PKCS 8."""
    return ec.generate_private_key(ec.SECP256R1()).private_bytes(
        serialization.Encoding.DER, serialization.PrivateFormat.PKCS8, serialization.NoEncryption()
    )


def public_point(signer: bytes) -> bytes:
    """The public key of a signer: 65 bytes, uncompressed."""
    return _signer(signer).public_key().public_bytes(
        serialization.Encoding.X962, serialization.PublicFormat.UncompressedPoint
    )


def sign(signer: bytes, message: bytes) -> bytes:
    """64 bytes r || s, as browsers take it."""
    r, s = decode_dss_signature(_signer(signer).sign(message, ec.ECDSA(hashes.SHA256())))
    return r.to_bytes(_HALF, "big") + s.to_bytes(_HALF, "big")


def is_signed(public: bytes, message: bytes, signature: bytes) -> bool:
    """True when the holder of the private half of `public` signed `message`."""
    if len(signature) != SIGNATURE_BYTES:
        return False
    r, s = (int.from_bytes(part, "big") for part in (signature[:_HALF], signature[_HALF:]))
    try:
        key = ec.EllipticCurvePublicKey.from_encoded_point(ec.SECP256R1(), public)
        key.verify(encode_dss_signature(r, s), message, ec.ECDSA(hashes.SHA256()))
    except (InvalidSignature, ValueError):
        return False
    return True


def _signer(signer: bytes) -> ec.EllipticCurvePrivateKey:
    key = serialization.load_der_private_key(signer, password=None)
    if not isinstance(key, ec.EllipticCurvePrivateKey) or not isinstance(key.curve, ec.SECP256R1):
        raise ValueError("a key of another kind")
    return key
