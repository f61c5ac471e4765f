"""The words for her stability: BG dived, GM on the way down, and what raises them."""

from collections.abc import Sequence

from trimdive.fact import Fact
from trimdive.hydrostatics.equilibrium import named
from trimdive.text.said import said, says
from trimdive.text.say import Say


def _each(say: Say, parts: Sequence[tuple[str, float]]) -> str:
    """Return parts and how far they come down [m]; those that come down alike together."""
    alike: dict[str, list[str]] = {}
    for name, by in parts:
        alike.setdefault(say.length(by), []).append(name)
    texts = [
        f"{named.listed(names)} by {by}{' each' if len(names) > 1 else ''}"
        for by, names in alike.items()
    ]
    return named.listed(texts)


@says("bg-short")
def _bg_short(say: Say, bg: float, wanted: float, once: Fact | None) -> str:
    first = f", {said(say, once)}" if once else ""
    return f"dived and upright: {named.bg(say.boat, bg)}{first}; {say.length(wanted)} wanted"


@says("lower-for-bg")
def _lower_for_bg(say: Say, parts: Sequence[tuple[str, float]], bg: float) -> str:
    return f"Lower {_each(say, parts)}: {named.bg(say.boat, bg)} then."


@says("lead-and-foam")
def _lead_and_foam(say: Say, lead: float, foam: float) -> str:
    return (
        f"As a guide: {say.mass(lead)} of lead on the keel paired with {say.volume(foam)} of foam "
        "just under the waterline raises BG as much. Placing lead and foam finds where it goes."
    )


@says("not-upright")
def _not_upright(say: Say, filled: Sequence[tuple[float, float]], does: Fact) -> str:
    ranges = " and ".join(f"from {say.share(low)} to {say.share(high)}" for low, high in filled)
    return f"{ranges} full she will not stand upright: {said(say, does)}"


@says("gm-short")
def _gm_short(say: Say, gm: float, filled: float, wanted: float) -> str:
    has, least = say.length(gm), say.length(wanted)
    little = "a little less than the " if has == least else ""
    return f"on the way down: least GM {has} at {say.share(filled)} full; {little}{least} wanted"


@says("lower")
def _lower(say: Say, parts: Sequence[tuple[str, float]]) -> str:
    return f"Lower {_each(say, parts)}."


@says("lead-low-foam-high")
def _lead_low_foam_high(_: Say) -> str:
    return "Lead low and foam high, in pairs; lighter upperworks."
