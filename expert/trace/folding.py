"""How the packed text of a step is folded: Zstandard (RFC 8878), after a phrase book and the text of the steps before.

A step has one or two kilobytes, and most of what it says was said before, in this job or in another. The phrase book
is a Zstandard dictionary made from invented jobs: the sentences, names and keys that come most often, and the code
tables that suit them. It is part of this format: it is never changed, only followed by another under another mark, so
that whoever has any later program reads every trace. After its sentences stand those of the job itself.

Folded text is spelled in base 85 (the alphabet of RFC 1924) after a mark that names how it was folded. Without a mark
it was folded as earlier programs did: raw DEFLATE (RFC 1951) with the text of the steps before as its dictionary.
"""

from __future__ import annotations

import base64
import zlib
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

from expert.trace.errors import TraceDamaged
from expert.trace.sentences import forms as say

if TYPE_CHECKING:
    import zstandard

WINDOW = 65_536  # bytes of the job's own text that are looked back on
OLDER_WINDOW = 32_768  # bytes that DEFLATE can look back
LARGEST = 8_000_000  # bytes of text in one step; a file that would unfold to more is no trace
MARK = "1:"  # the phrase book that is used now; ':' is none of the 85
LEVEL = 9  # 20 times as fast as level 12, and 2 % longer
PHRASES = Path(__file__).with_name("phrases-1.zdict")


def fold(text: bytes, before: bytes) -> str:
    """The text of a step as it stands in its line; `before`: that of the steps before."""
    import zstandard

    phrases = _phrases(before)
    form = zstandard.ZstdCompressionParameters.from_level(
        LEVEL,
        source_size=len(text),
        dict_size=len(phrases),
        format=zstandard.FORMAT_ZSTD1_MAGICLESS,
        write_content_size=False,
        write_dict_id=False,
    )
    folded = zstandard.ZstdCompressor(dict_data=phrases, compression_params=form).compress(text)
    return MARK + base64.b85encode(folded).decode("ascii")


def unfold(folded: object, before: bytes) -> bytes:
    """The text of a step, by this or an earlier program. Raises TraceDamaged."""
    if not isinstance(folded, str):
        raise TraceDamaged(say.PACKED_IS_A_TEXT)
    if folded.startswith(MARK):
        return _unfold(folded.removeprefix(MARK), before)
    return _unfold_older(folded, before[-OLDER_WINDOW:])


def _unfold(folded: str, before: bytes) -> bytes:
    import zstandard

    form = zstandard.ZstdDecompressor(dict_data=_phrases(before), format=zstandard.FORMAT_ZSTD1_MAGICLESS)
    try:
        return form.decompress(base64.b85decode(folded), LARGEST, allow_extra_data=False)
    except (ValueError, zstandard.ZstdError):
        raise TraceDamaged(say.NOT_PACKED) from None


def _unfold_older(folded: str, before: bytes) -> bytes:
    unpacker = zlib.decompressobj(-15, before)
    try:
        text = unpacker.decompress(base64.b85decode(folded), LARGEST)
    except (ValueError, zlib.error):
        raise TraceDamaged(say.NOT_PACKED) from None
    if not unpacker.eof or unpacker.unused_data:
        raise TraceDamaged(say.NOT_PACKED)
    return text


def _phrases(before: bytes) -> zstandard.ZstdCompressionDict:
    import zstandard

    return zstandard.ZstdCompressionDict(_book() + before[-WINDOW:])


@cache
def _book() -> bytes:
    return PHRASES.read_bytes()
