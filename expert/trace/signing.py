"""Signatures of the shop: ed25519 (RFC 8032) through the library `cryptography`, which is an extra.

A chain of digests shows accidents and edits; whoever holds the file can work it all out anew. A signature cannot be
made without the shop's key. Whether a public key is the shop's is for the reader to know: it is compared with the one
that the shop keeps.
"""

from __future__ import annotations

import os
from pathlib import Path

from expert.trace.errors import TraceError
from expert.trace.sentences import proving as say
from expert.trade.frozen import dataclass


class CannotSign(TraceError):
    """The library is missing, or the key cannot be read or used."""


@dataclass(frozen=True, slots=True)
class Signature:
    """A signature and the public key that it is checked with, both in hexadecimal digits; '' for none."""

    key: str = ""
    value: str = ""


@dataclass(frozen=True, slots=True)
class ShopKey:
    """The shop's key: its 32 secret bytes. Kept in a file that only its owner can read."""

    secret: bytes

    @property
    def public(self) -> str:
        """The public key. Raises CannotSign without the library."""
        public: bytes = _private(self.secret).public_key().public_bytes_raw()
        return public.hex()

    def sign(self, content: bytes) -> Signature:
        """The signature of these bytes. Raises CannotSign without the library."""
        private = _private(self.secret)
        return Signature(private.public_key().public_bytes_raw().hex(), private.sign(content).hex())


def sealed_content(lines: int, digest: str) -> bytes:
    """What the signature of a seal is about."""
    return say.seal_signed(lines, digest).encode("ascii")


def make_key(path: Path) -> ShopKey:
    """A new key in a file that is not there yet. Raises CannotSign, FileExistsError, OSError."""
    key = ShopKey(os.urandom(32))
    _ = key.public
    path.parent.mkdir(parents=True, exist_ok=True)
    with open(os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600), "w", encoding="ascii") as file:
        file.write(f"{key.secret.hex()}\n")
        file.flush()
        os.fsync(file.fileno())
    return key


def read_key(path: Path) -> ShopKey | None:
    """The key in a file; None when there is no file. Raises CannotSign when it holds no key."""
    try:
        text = path.read_text(encoding="ascii").strip()
    except FileNotFoundError:
        return None
    except (OSError, UnicodeDecodeError) as problem:
        raise CannotSign(say.cannot_be_read(path, problem)) from None
    try:
        secret = bytes.fromhex(text)
    except ValueError:
        secret = b""
    if len(secret) != 32:
        raise CannotSign(say.holds_no_key(path))
    return ShopKey(secret)


def is_signed_by(signature: Signature, content: bytes) -> bool:
    """Whether the signature is that of its key over these bytes. Raises CannotSign without the library."""
    from_library = _library()
    try:
        key = from_library.Ed25519PublicKey.from_public_bytes(bytes.fromhex(signature.key))
        key.verify(bytes.fromhex(signature.value), content)
    except (ValueError, from_library.InvalidSignature):
        return False
    return True


class _Library:
    """The few names that are used of the library."""

    def __init__(self) -> None:
        try:
            from cryptography.exceptions import InvalidSignature
            from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey, Ed25519PublicKey
        except ImportError:
            raise CannotSign(say.SIGNATURES_NEED) from None
        self.InvalidSignature = InvalidSignature
        self.Ed25519PrivateKey = Ed25519PrivateKey
        self.Ed25519PublicKey = Ed25519PublicKey


def _library() -> _Library:
    return _Library()


def _private(secret: bytes):  # type: ignore[no-untyped-def]
    return _library().Ed25519PrivateKey.from_private_bytes(secret)
