"""How a plan lies in its picture, by the marks on it: as it was scanned, or photographed."""

from collections.abc import Iterator, Mapping

from trimdive.errors import PlanError, TrimdiveError
from trimdive.plans.level import Line, level
from trimdive.plans.marks import CORNERS, Marks
from trimdive.plans.photo import photographed
from trimdive.plans.sheet import Checked, Known, Sheet, check_length
from trimdive.records import record
from trimdive.units import read

TURNED = 0.35  # slope of a level line beyond which it was marked the other way round [-]


@record
class Lie:
    """How a plan lies, as far as its marks say it."""

    sheet: Sheet | None  # places in metres of the model
    checked: Checked | None  # what a further length measures, of the model
    troubles: Mapping[str, TrimdiveError]  # by the thing or the figure that is wrong


def share_of(marks: Marks, scale: float | None) -> float:
    """Return how long the model is to what figures are of [-].

    Args:
        marks: With what was chosen and typed.
        scale: Length of the ship to that of the model, as the boat file has it [-].

    Raises:
        TrimdiveError: Figures are of the ship, and no scale is entered.
    """
    if marks.said("of") == "model":
        return 1.0
    typed = marks.said("scale")
    found = read(typed, "ratio") if typed else scale
    if not found:
        what = "figures of the real ship need the scale of the model"
        raise PlanError(what, "scale", "Enter it, as 1:48.")
    return 1.0 / found


def length_of(text: str, share: float, unit: str | None) -> float:
    """Return a length as it was typed, of the model [m].

    Args:
        text: As it was typed; what names no unit is in metres where it is of the ship.
        share: How long the model is to what it is of [-].
        unit: The boat's own unit of length.

    Raises:
        UnitError: It is no length.
    """
    return read(text, "length", unit if share == 1.0 else "m") * share


def lie_of(marks: Marks, size: tuple[int, int], scale: float | None, unit: str | None) -> Lie:
    """Return how a plan lies.

    Args:
        marks: What was marked and typed.
        size: Width and height of the picture in pixels.
        scale: Length of the ship to that of the model, as the boat file has it [-].
        unit: The boat's own unit of length.
    """
    troubles: dict[str, TrimdiveError] = {}
    try:
        share = share_of(marks, scale)
    except TrimdiveError as error:
        return Lie(sheet=None, checked=None, troubles={"scale": error})
    lengths = _lengths(marks, share, unit, troubles)
    sheet = None
    try:
        if marks.said("lie") == "photo":
            sheet = _photographed(marks, size, share, unit, troubles)
        else:
            sheet = _scanned(marks, lengths)
    except TrimdiveError as error:
        troubles["lie"] = error
    checked = None
    if sheet is not None and "check" in lengths:
        try:
            checked = check_length(sheet, lengths["check"])
        except TrimdiveError as error:
            troubles["check"] = error
    return Lie(sheet=sheet, checked=checked, troubles=troubles)


def _lengths(
    marks: Marks, share: float, unit: str | None, troubles: dict[str, TrimdiveError]
) -> dict[str, Known]:
    """Return known lengths that are marked and typed; what is wrong with others is told."""
    found: dict[str, Known] = {}
    for key in ("along-1", "along-2", "up-1", "up-2", "check"):
        if text := marks.said(key):
            try:
                length = length_of(text, share, unit)
            except TrimdiveError as error:
                troubles[key] = error
                continue
            if marks.is_whole(key):
                start, end = marks.of(key)
                found[key] = Known(start=start.at, end=end.at, length=length)
    return found


def _scanned(marks: Marks, lengths: Mapping[str, Known]) -> Sheet | None:
    """Return the sheet of a scanned plan; None where marks are missing.

    Raises:
        PlanError: The marks do not go together.
    """
    along = tuple(lengths[key] for key in ("along-1", "along-2") if key in lengths)
    up = tuple(lengths[key] for key in ("up-1", "up-2") if key in lengths)
    if not (marks.is_whole("level") and along and up):
        return None
    return level((_rightwards(marks),), along, up).sheet


def _rightwards(marks: Marks) -> Line:
    """Return the level line from its left end to its right one.

    A plan that stands on its side keeps the order in which it was marked.
    """
    one, other = (point.at for point in marks.of("level"))
    is_turned = abs(other[1] - one[1]) > TURNED * abs(other[0] - one[0])
    return (one, other) if is_turned or one[0] <= other[0] else (other, one)


def _photographed(
    marks: Marks,
    size: tuple[int, int],
    share: float,
    unit: str | None,
    troubles: dict[str, TrimdiveError],
) -> Sheet | None:
    """Return the sheet of a photographed plan; None where marks or figures are missing.

    Raises:
        PlanError: The marks do not go together.
    """
    figures = dict(_figures(marks, share, unit, troubles))
    places = [
        (figures[f"{corner}-x"], figures[f"{corner}-z"])
        for corner in CORNERS
        if marks.is_whole(corner) and {f"{corner}-x", f"{corner}-z"} <= set(figures)
    ]
    if len(places) < len(CORNERS):
        return None
    pixels = tuple(marks.of(corner)[0].at for corner in CORNERS)
    return photographed(pixels, tuple(places), size).sheet


def _figures(
    marks: Marks, share: float, unit: str | None, troubles: dict[str, TrimdiveError]
) -> Iterator[tuple[str, float]]:
    """Yield places of the known points as typed; what is wrong with others is told."""
    for key in (f"{corner}-{axis}" for corner in CORNERS for axis in "xz"):
        if text := marks.said(key):
            try:
                yield key, length_of(text, share, unit)
            except TrimdiveError as error:
                troubles[key] = error
