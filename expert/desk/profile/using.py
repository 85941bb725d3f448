"""What a job takes from the shop's profile, and how its trace keeps that, so that it can be run again anywhere."""

from __future__ import annotations

import os
from collections.abc import Iterator
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path
from typing import TYPE_CHECKING

from platformdirs import user_config_path

from expert.desk.sentences import profile as say
from expert.engine.knowledge import Knowledge
from expert.job.state.shop import Shop
from expert.language.model import RuleBase
from expert.language.problems import RulesRefused
from expert.trace.errors import TraceDamaged
from expert.trace.records import Opened
from expert.trace.signing import read_key
from expert.trace.writing import Sign
from expert.trade.sensors.instruments import Instrument

if TYPE_CHECKING:
    from expert.desk.profile.reading import Profile

# So that a shop with several benches, and a test, can name another place.
VARIABLE = "EXPERT_SHOP"
CALIBRATED_FOR = timedelta(days=366)


def profile_path() -> Path:
    """The file of the shop's profile. It need not be there."""
    named = os.environ.get(VARIABLE)
    return Path(named) if named else user_config_path("bench-expert", appauthor=False) / "shop.yaml"


def key_path() -> Path:
    """Where the shop's key lies, if it has one: beside its profile."""
    return profile_path().with_name("shop.key")


def signing() -> Sign | None:
    """What signs seals, where the shop has a key. Raises `signing.CannotSign` for a key that cannot be used."""
    key = read_key(key_path())
    if key is not None:
        _ = key.public
    return key.sign if key else None


def profile_at_hand(base: RuleBase) -> Profile | None:
    """The shop's profile; None when there is no file. Raises RulesRefused when there is one that cannot be used."""
    path = profile_path()
    if not path.exists():
        return None
    # Here and in shop_at_opening, not above: a shop without a profile does not wait for what reads one.
    from expert.desk.profile.reading import load_profile

    return load_profile(path, base)


def shop_from(knowledge: Knowledge, profile: Profile | None, system: str = "") -> tuple[Knowledge, Shop]:
    """The shop as jobs know it, and the knowledge with the shop's own instruments. `system`: "" as the profile says."""
    base = knowledge.base
    if profile is not None and profile.instruments is not None:
        base = replace(base, instruments={**_not_owned(base), **profile.instruments})
        knowledge = replace(knowledge, base=base)
    owned = frozenset(instrument.id for instrument in base.instruments.values() if instrument.owned)
    if profile is None:
        return knowledge, Shop(owned, system or "metric")
    of_the_shop = (profile.country, profile.machines, profile.technicians, profile.rates)
    return knowledge, Shop(owned, system or profile.units, *of_the_shop)


def calibrations_due(profile: Profile, base: RuleBase, today: date) -> Iterator[str]:
    """One line for each instrument whose last calibration is over a year ago (common practice, no source)."""
    for instrument, day in profile.calibrated.items():
        if today - day > CALIBRATED_FOR:
            yield say.calibration_is_due(base.instruments[instrument].name, day)


def shop_at_opening(knowledge: Knowledge, opened: Opened, path: Path | None) -> tuple[Knowledge, Shop]:
    """The same as it was when a job was opened. Raises TraceDamaged when its profile does not fit the rules."""
    if not opened.shop_file:
        return knowledge, Shop(frozenset(opened.instruments), opened.system)
    from expert.desk.profile.reading import read_profile

    try:
        profile = read_profile("the job's shop", opened.shop_file, knowledge.base)
    except RulesRefused as refused:
        problem = say.profile_does_not_fit(refused.problems[0])
        raise TraceDamaged(problem, path, 1) from None
    return shop_from(knowledge, profile, opened.system)


def _not_owned(base: RuleBase) -> dict[str, Instrument]:
    return {name: replace(instrument, owned=False) for name, instrument in base.instruments.items()}
