"""What each code of reading a rule file means; those of a check stand with what the check says."""

from __future__ import annotations

OF_READING = {
    # The file as text
    "no-rules": "The folder is not there, or holds no circuit file.",
    "unknown-file": "The file does not belong to a rule base, or its name is misspelt.",
    "unreadable-file": "The computer could not read the file.",
    "too-large": "The file is larger than a rule file may be.",
    "not-utf-8": "The file is not saved as UTF-8 text.",
    "control-character": "An invisible or forbidden character stands in the text.",
    "tab": "A tab stands in the text; only spaces may indent.",
    "empty-file": "The file says nothing.",
    # The file as YAML
    "not-yaml": "The text does not follow the layout that YAML asks for.",
    "glued-dash": "A dash has no space after it.",
    "several-documents": "The file holds more than one document (a line of three dashes).",
    "anchor": "An anchor (&name) is used.",
    "alias": "An alias (*name) is used.",
    "tag": "A tag (!name) is used.",
    "too-deep": "Lists and mappings are nested too deeply.",
    "too-many-values": "The file holds too many values.",
    "duplicate-key": "The same key stands twice in one mapping.",
    "not-a-key": "Something other than a single word or text stands before a colon.",
    # The shape of a record
    "unknown-key": "A key that this kind of record does not have.",
    "stands-elsewhere": "A record stands where records of another kind are wanted.",
    "missing-key": "A key that this kind of record must have is missing.",
    "empty-value": "Nothing stands where something is wanted.",
    "stray-quote": "A quote stands at the end of a text, and none at its beginning.",
    "wrong-shape": "A list, a mapping or a text stands where another of them is wanted.",
    "not-snake-case": "An id is not written in small letters, digits and single underscores.",
    "reserved-name": "An id is a word that the language itself uses.",
    "not-a-number": "A plain number is wanted.",
    "not-yes-or-no": "Only yes or no will do.",
    "unknown-word": "Only certain words will do here, and this is none of them.",
    "said-twice": "The same name stands twice in one list.",
    # Names
    "duplicate-id": "The same id is given twice.",
    "unknown-name": "Nothing of this kind has that name.",
    "unknown-outcome": "The question, finding, fault or feature has no such outcome.",
    "wrong-level": "A list of the file stands inside another one.",
    "never-applies": "A part or question can never apply, because its circuit excludes it.",
    # Quantities and formulas
    "unknown-kind": "No kind of quantity has that name.",
    "wrong-unit": "The unit does not belong to the kind of quantity that is wanted.",
    "not-a-quantity": "The text cannot be read as a number with a unit.",
    "limits-reversed": "The lower limit is not below the upper limit.",
    "formula": "The formula cannot be read.",
    "wrong-kind": "The formula gives, or mixes, the wrong kind of quantity.",
    # Questions and rules
    "no-otherwise": "The last reading of a measurement is not `otherwise`.",
    "unreachable-reading": "A reading can never come out, because one before it takes everything.",
    "nothing-in-common": "A finding stands for no answers here: the ways to it have no question in common.",
    "no-circuit": "A circuit's folder has no file `circuit.yaml`, which says what circuit it is.",
    "too-few-outcomes": "A question, finding or feature needs at least two outcomes.",
    "no-conclusion": "A rule concludes nothing.",
    "no-accuracy": "An instrument's accuracy is not given, or is given in two ways at once.",
    # Answers files and worked cases
    "not-an-answer": "The dialogue would refuse this value at its prompt.",
}
