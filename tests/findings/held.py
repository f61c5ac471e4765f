"""What every finding keeps to: its figures are data, and its sentence says the same figures.

Only here is a sentence read for its figures.
"""

import re
from collections.abc import Iterator
from math import isfinite

import pytest
from tests.assessed import forget
from tests.said import what_of

from trimdive.findings import Finding
from trimdive.findings.finding import UNMEASURED
from trimdive.units import read

ROUNDING = 1e-9  # a check may hold a figure against its limit by another way round [-]
NUMBER = r"(-?[\d.,]+ ?(?:mm|cm|m|in|ft|g|kg|oz|lb|cm³|ml|L|in³|°)(?!\w))"
SAYS = {  # where a sentence has what was measured, of which kind, and which word makes it negative
    "waterline-band": (rf"floats {NUMBER} (low|high) amidships", "length", "high"),
    "trim-surfaced": (rf"trim {NUMBER} (bow|stern) down", "angle", "stern"),
    "trim-dived": (rf"trim {NUMBER} (bow|stern) down", "angle", "stern"),
    "heel": (rf"heel {NUMBER} to (starboard|port)", "angle", "port"),
    "neutral-band": (rf"will not dive: {NUMBER} light", "mass", ""),
    "gm-least": (rf"least GM {NUMBER} at", "length", ""),
    "outside-slack": (rf"sticks {NUMBER} out of the hull", "length", ""),
    "clear-slack": (rf"reaches {NUMBER} into", "length", ""),
    "room-home": (rf"lies {NUMBER} outside it", "length", ""),
    "room-bore": (rf"reaches {NUMBER} out of the room", "length", ""),
    "figure-least": (rf", {NUMBER} (?:above|off|in size)", "length", ""),
    "dive-turn": (rf"turns by {NUMBER}", "angle", ""),
    "stuck-tank": (rf"blown only {NUMBER} of her", "volume", ""),
    "lift-one": (rf"she weighs {NUMBER};", "mass", ""),
    "lift-two": (rf"she weighs {NUMBER};", "mass", ""),
    "void-above": (rf"with {NUMBER} of air", "volume", ""),
    "closed-print": (rf"which is {NUMBER} of air", "volume", ""),
    "tower-shut": (rf": {NUMBER} of air", "volume", ""),
    "tower-floor": (rf"{NUMBER} of air stays", "volume", ""),
    "foam-above": (rf"holds {NUMBER} of foam", "volume", ""),
    "mesh-overlap": (rf": {NUMBER} of it counts twice", "volume", ""),
    "plant-home": (rf"she is {NUMBER} (heavy|light) at", "mass", "heavy"),
    "plant-drift": (rf"she grows {NUMBER} \w+ a minute", "mass", ""),
    "link-clear": (rf"as near as {NUMBER} to", "length", ""),
    "shell-halves": (rf"is {NUMBER} broader to (port|starboard)", "length", "starboard"),
    "return-depth": (rf"deeper than {NUMBER} she sinks", "length", ""),
}
DOWN = {"return-depth"}  # rounded down, since it is a bound


def in_sentence(found: Finding) -> tuple[float, float] | None:
    """Return the figure in a sentence and how far it is rounded [SI]; None where it has none."""
    pattern, kind, negative = SAYS.get(found.key, ("", "", ""))
    answer = re.search(pattern, what_of(found)) if pattern else None
    if answer is None:
        return None
    text, *words = answer.groups()
    number, unit = re.fullmatch(r"(-?[\d.,]+) ?(\D.*)", text).groups()  # type: ignore[union-attr]
    last = 10.0 ** -len(number.partition(".")[2])
    size = abs(read(f"{last:.9f} {unit}", kind, None))
    value = read(text, kind, None) * (-1 if words and words[0] == negative else 1)
    return value, size * (1.0 if found.key in DOWN else 0.5)


def hold(found: Finding) -> None:
    """Hold one finding against what all of them keep to."""
    limit, stands = found.limit, found.stands
    if stands is None:
        assert found.key in UNMEASURED, f"{found.key} measures nothing: {what_of(found)}"
        return
    assert isfinite(stands), what_of(found)
    is_within = found.key == "plant-filling" and found.weight == "look at"  # told for its words
    far = stands if found.key == "plant-filling" else abs(stands)  # a plant may have some to spare
    if limit.sense == "at most":
        is_beyond = far >= limit.value * (1 - ROUNDING)
    else:
        is_beyond = stands <= limit.value * (1 + ROUNDING)
    assert is_beyond != is_within, (
        f"{stands} {limit.unit}, {limit.sense} {limit.value}: {what_of(found)}"
    )
    if (answer := in_sentence(found)) is not None:
        value, rounded = answer
        assert value == pytest.approx(stands, abs=rounded * 1.001, rel=0), (stands, what_of(found))


@pytest.fixture(scope="session", autouse=True)
def held() -> Iterator[None]:
    """Hold every finding that a test meets, of boats worked out for tests before as well."""
    forget()
    plain = Finding.__init__

    def checked(self: Finding, **fields: object) -> None:
        plain(self, **fields)  # type: ignore[arg-type]
        hold(self)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(Finding, "__init__", checked)
        yield
