"""Reviews of jobs."""

from __future__ import annotations

# ------------------------------------------------------------ book

DOES_NOT_FOLLOW = "it does not follow from the review before it"
ABOUT_ANOTHER_TRACE = "it is about another trace, or the trace was changed since"
CHANGED_AFTERWARDS = "it was changed after it was written"
SIGNATURE_OF_ANOTHER = "its signature is not that of its key"


def not_sealed(path: object) -> str:
    return f"{path} is not sealed: a job is reviewed once it is closed"


def cannot_be_added_to(path: object, by: str, trouble: str) -> str:
    return f"{path} cannot be added to: of a review by {by}, {trouble}"


# ------------------------------------------------------------ command


def key_written(key_path: object, public: str) -> str:
    return (
        f"Written: {key_path}\nKeep a copy of that file where nobody else can read it.\nPublic key, to be noted where "
        f"others find it: {public}"
    )


WHO_REVIEWS = "Who reviews? Add: --by NAME"


def is_no_fault(true_fault: str) -> str:
    return f"{true_fault!r} is no fault of the rules; expert explain lists them"


NOT_SIGNED = ", not signed: expert review --make-key makes a key"


def how_a_remark_is_written(text: str) -> str:
    return f"{text!r}: a remark is the id of a question or a rule, a colon, and the text"


def true_fault(true_fault: str) -> str:
    return f"  the true fault: {true_fault}"


def not_to_be_relied_on(trouble: str) -> str:
    return f"  NOT TO BE RELIED ON: {trouble}"


KEY_OF_THIS_SHOP = "the key of this shop"

# ------------------------------------------------------------ records

RIGHT = "right, and for the right reasons"
RIGHT_BY_LUCK = "right by luck: what was found does not follow from what was asked"
UNSAFE = "unsafe: somebody could have been hurt, whatever was found"
