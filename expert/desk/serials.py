"""The serial number of a machine, kept as a key only: one that comes back is known again, its number to nobody else.

The key is HMAC-SHA256 (RFC 2104, FIPS 180-4) of the number under a secret of the shop, cut to 80 bits. Without the
secret a list of numbers cannot be tried out against the traces.
"""

from __future__ import annotations

import hmac
import os
import re
from pathlib import Path

from expert.desk.profile.using import profile_path
from expert.job.prompts.plate import SERIAL_KEY

DIGITS = 20
_TOLD = re.compile(r"(\bserial(?:\s+number)?\s*[:= ]\s*)(?!key:)([^,]+)", re.IGNORECASE)


def secret_path() -> Path:
    """Where the shop's secret lies: beside its profile."""
    return profile_path().with_name("shop.secret")


def hidden(line: str) -> str:
    """The line with a serial number in it replaced by its key. Raises OSError when the secret cannot be kept."""
    found = _TOLD.search(line)
    if found is None:
        return line
    number = re.sub(r"[^0-9a-z]", "", found[2].casefold())
    key = hmac.new(_secret(), number.encode("utf-8"), "sha256").hexdigest()[:DIGITS] if number else ""
    return f"{line[: found.start()]}serial {SERIAL_KEY}{key}{line[found.end() :]}"


def _secret() -> bytes:
    path = secret_path()
    if not path.exists():
        path.parent.mkdir(parents=True, exist_ok=True)
        try:
            with open(os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600), "w", encoding="ascii") as file:
                file.write(f"{os.urandom(32).hex()}\n")
                file.flush()
                os.fsync(file.fileno())
        except FileExistsError:
            pass  # another terminal was quicker, and its secret is the shop's
    return path.read_bytes().strip()
