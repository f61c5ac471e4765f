"""The finding that one figure may have slipped, in words, with the figure that would be right."""

from collections.abc import Sequence
from math import exp, isclose

from trimdive.boatfile import Boat
from trimdive.findings.finding import Finding, finding, limit_of
from trimdive.slips.candidates import Candidate
from trimdive.units import read

COARSE = 0.02  # a figure told farther off than this share is told with all its digits [-]
RANK = 120  # above all else: what else is found may follow from it [-]
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
    """Return a figure as it stands and as it would be, in words."""
    if len(slip.changes) > 1:
        (_, first), (_, second) = slip.changes
        return _one(
            boat, slip, slip.was
        ), f"{_one(boat, slip, first)}, and {_one(boat, slip, second)} for the other"
    if (
        slip.kind == "mass"
        and boat.units.shown("mass") == "g"
        and isclose(slip.would, slip.was / 1000, rel_tol=1e-6)
    ):
        return f"{slip.was:g} kg", _one(boat, slip, slip.would)
    return _one(boat, slip, slip.was), _one(boat, slip, slip.would)


def _one(boat: Boat, slip: Candidate, value: float) -> str:
    """Return a figure as she counts it, with as many digits as tell it."""
    if slip.field in ALONG:
        value = boat.along(value)
    text = boat.units.write(value, slip.kind)
    if value and abs(read(text, slip.kind, None) / value - 1) > COARSE:
        return boat.units.write_fine(value, slip.kind)
    return text
