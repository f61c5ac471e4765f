"""The finding that one figure may have slipped, in words, with the figure that would be right."""

import re
from collections.abc import Sequence
from contextlib import suppress
from decimal import Decimal
from math import exp, isclose

from trimdive.boatfile import Boat
from trimdive.errors import UnitError
from trimdive.findings.finding import Finding, finding, limit_of
from trimdive.slips.candidates import Candidate
from trimdive.units import number_in, read

COARSE = 0.02  # a figure told farther off than this share is told with all its digits [-]
MOST_DIGITS = 6  # that are asked for, however many were typed [-]
RANK = 120  # above all else: what else is found may follow from it [-]
SAME = 1e-9  # figures nearer than this share are one [-]
MOST_GAIN = 700.0  # beyond it a likelihood is no number any more [-]
SAYS = {  # how each figure is told, of one thing or of many; what is not here by its name
    "mass": "{name}, mass {was}",
    "hung": "{name}, {was} under water",
    "volume": "{name}, volume {was}",
    "density": "{name}, density {was}",
    "x": "{name}, {was}",
    "x_aft": "after end of {name}, {was}",
    "x_fore": "fore end of {name}, {was}",
    "water_end": "water end of {name}, {was}",
    "y": "{name}, {was} off the middle",
    "z": "{name}, {was} above the keel line",
    "z_bottom": "underside of {name}, {was} above the keel line",
    "z_top": "top of {name}, {was} above the keel line",
    "length": "{name}, length {was}",
    "breadth": "{name}, breadth {was}",
    "height": "{name}, height {was}",
    "diameter": "{name}, diameter {was}",
    "outside": "{name}, outside {was}",
    "bore": "{name}, bore {was}",
    "wall": "{name}, wall {was}",
    "thickness": "{name}, skin {was} thick",
    "stroke": "{name}, stroke {was}",
}
DIGIT = re.compile(r"(?<![a-zA-Z])\d")  # of a figure; those of its unit follow a letter
ALONG = ("x", "x_aft", "x_fore", "water_end", "forward_of", "aft_of")


def slip_finding(
    boat: Boat,
    slip: Candidate,
    gain: float,
    others: Sequence[Candidate] = (),
    of_figure: float | None = None,
) -> Finding:
    """Return the finding that a figure may have slipped.

    Args:
        boat: The boat.
        slip: The figure, and what it may have been meant to be.
        gain: Logarithm of how much likelier she is with it put right [-].
        others: What else the same figure may have been meant to be, hardly less likely.
        of_figure: The same of the figure, whatever it was meant to be; None: a refusal names it,
            however likely it is [-].
    """
    limit = limit_of("slip", boat)
    was, would = told(boat, slip)
    pattern = SAYS.get(slip.field, "{name}, '{field}' {was}")
    end = f" from the {boat.told_from}" if slip.field in ALONG else ""
    what = pattern.format(name=slip.name, field=slip.field.replace("_", " "), was=was + end)
    second = [(told(boat, other)[1], other.why) for other in others]
    second = [(text, why) for text, why in second if text != would][:1]
    also = [f", or {text} ({why})" for text, why in second]
    return finding(
        limit=limit,
        subject=f"{slip.path}.{slip.field}",
        what=f"{what}: {', or '.join([would, *(text for text, _ in second)])}?",
        mend=f"Write {would} ({slip.why}){''.join(also)}, if that is what was measured.",
        rank=RANK,
        beyond=gain,
        stands=None if of_figure is None else exp(min(of_figure, MOST_GAIN)),
        edits=slip.edits,
    )


def told(boat: Boat, slip: Candidate) -> tuple[str, str]:
    """Return a figure as it stands and as it would be, in words.

    As it stands it is quoted from her file, so that it is found there, and as it would be it has as
    many digits; a figure that stands in no file is rounded.
    """
    typed = _quoted(boat, slip)
    if len(slip.changes) > 1:
        (_, first), (_, second) = slip.changes
        would = f"{_one(boat, slip, first, typed)}, and {_one(boat, slip, second, typed)}"
        return typed or _one(boat, slip, slip.was), f"{would} for the other"
    if typed:
        return typed, _one(boat, slip, slip.would, typed)
    if (
        slip.kind == "mass"
        and boat.units.shown("mass") == "g"
        and isclose(slip.would, slip.was / 1000, rel_tol=1e-6)
    ):
        return f"{slip.was:g} kg", _one(boat, slip, slip.would)
    return _one(boat, slip, slip.was), _one(boat, slip, slip.would)


def _quoted(boat: Boat, slip: Candidate) -> str:
    """Return a figure as it is typed in her file; nothing where it stands in none, or otherwise."""
    typed = boat.typed(f"{slip.path}.{slip.field}")
    stands = boat.along(slip.was) if slip.field in ALONG else slip.was
    own = boat.units.shown(slip.kind)  # of a number without a unit
    for text in (typed, f"{typed} {own}") if typed else ():
        with suppress(UnitError):
            if isclose(read(text, slip.kind, None), stands, rel_tol=SAME, abs_tol=SAME**2):
                return text
    return ""


def _one(boat: Boat, slip: Candidate, value: float, typed: str = "") -> str:
    """Return a figure as she counts it, with as many digits as tell it, or as were typed."""
    if slip.field in ALONG:
        value = boat.along(value)
    text = boat.units.write(value, slip.kind)
    if value and abs(read(text, slip.kind, None) / value - 1) > COARSE:
        text = boat.units.write_fine(value, slip.kind)
    if not typed or isclose(read(text, slip.kind, None), value, rel_tol=SAME):
        return text
    unit = boat.units.shown(slip.kind)
    digits = min(max(len(DIGIT.findall(one)) for one in (typed, text)), MOST_DIGITS)
    return f"{Decimal(f'{number_in(value, slip.kind, unit):.{digits}g}'):f} {unit}"
