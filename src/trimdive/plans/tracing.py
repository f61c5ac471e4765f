"""From marks on a picture to the hull: each line as it is traced, and all of them together."""

from collections.abc import Mapping

import numpy as np

from trimdive.boatfile import Waterline
from trimdive.errors import PlanError, TrimdiveError
from trimdive.geometry.lines import Floats
from trimdive.plans.agree import Apart, between, on_line
from trimdive.plans.fullsize import waterline_of
from trimdive.plans.lying import Lie, length_of, lie_of, share_of
from trimdive.plans.marks import Marks
from trimdive.plans.sheet import Sheet
from trimdive.plans.views import END, LEAST, Traced, TracedSection, View, traced
from trimdive.records import record

TELLS = 5e-4  # views that are less apart are told as one [m]
FINE = 90  # points along a line as it is drawn over the picture [-]
VIEW_OF = {"keel": "profile", "deck": "profile", "waterline": "profile", "half": "plan"}
WHOSE = {  # which thing an error of the hull is of, by where it says it is
    "keel": "keel", "deck": "deck", "profile": "deck", "half-breadth": "half",
    "sections": "sections", "the waterline": "waterline",
}  # fmt: skip


@record
class Tracing:
    """What the marks on a picture come to."""

    lie: Lie
    sheet: Sheet | None  # with her deck above her keel, as soon as these are traced
    views: Mapping[str, View]  # by "profile", "plan" and "body", those that are marked
    hull: Traced | None  # as it was traced, where enough is
    taken: Traced | None  # half way between its views
    apart: tuple[Apart, ...]
    waterline: Waterline | None
    troubles: Mapping[str, TrimdiveError]  # by the thing or the figure that is wrong
    drawn: Mapping[str, Floats]  # lines over the picture in pixels, shape (n, 2)
    spots: Floats  # where views differ, over the picture in pixels, shape (m, 2)


def tracing_of(
    marks: Marks, size: tuple[int, int], scale: float | None, unit: str | None
) -> Tracing:
    """Return what the marks on a picture come to.

    Args:
        marks: What was marked and typed.
        size: Width and height of the picture in pixels.
        scale: Length of the ship to that of the model, as the boat file has it [-].
        unit: The boat's own unit of length.
    """
    lie = lie_of(marks, size, scale, unit)
    troubles = dict(lie.troubles)
    views: dict[str, View] = {}
    hull = taken = waterline = None
    apart: tuple[Apart, ...] = ()
    drawn: Mapping[str, Floats] = {}
    spots = np.zeros((0, 2))
    sheet = lie.sheet and _upright(marks, lie.sheet)
    if sheet is not None:
        try:
            views = _views(marks, sheet)
            stations = _stations(marks, scale, unit, troubles)
            hull = _hull(marks, sheet, views, stations, size)
            if hull is not None:
                taken, apart = between(hull)
                waterline = _waterline(marks, sheet, views, hull, troubles)
                order = sorted(stations, key=lambda key: stations[key])
                drawn = _drawn(taken, marks, sheet, views, order)
                spots = _spots(apart, drawn, sheet, views)
        except TrimdiveError as error:
            key = error.where if error.where.startswith("section-") else WHOSE.get(error.where)
            troubles[key or error.where] = error
    return Tracing(
        lie=lie, sheet=sheet, views=views, hull=hull, taken=taken, apart=apart, waterline=waterline,
        troubles=troubles, drawn=drawn, spots=spots,
    )  # fmt: skip


def _upright(marks: Marks, sheet: Sheet) -> Sheet:
    """Return the sheet with her deck above her keel, where the plan stands on its side.

    There the level line does not tell which of its ends is the right one; her lines do.
    """
    if marks.said("lie") == "photo" or not (marks.of("keel") and marks.of("deck")):
        return sheet
    one, other = (point.at for point in marks.of("level"))
    keel, deck = (float(_places(marks, key, sheet)[:, 1].mean()) for key in ("keel", "deck"))
    if abs(other[1] - one[1]) < abs(other[0] - one[0]) or deck >= keel:
        return sheet
    return Sheet(matrix=np.diag([-1.0, -1.0, 1.0]) @ sheet.matrix, lens=sheet.lens)


def _places(marks: Marks, key: str, sheet: Sheet) -> Floats:
    """Return the points of a thing on the sheet, shape (n, 2) [m]."""
    points = np.array([point.at for point in marks.of(key)], dtype=np.float64).reshape(-1, 2)
    return sheet.at(points) if len(points) else points


def _views(marks: Marks, sheet: Sheet) -> dict[str, View]:
    """Return where the views are that are marked whole.

    Raises:
        PlanError: A view has no length, or sections have no size.
    """
    found: dict[str, View] = {}
    for key in ("profile", "plan"):
        if not marks.is_whole(key):
            continue
        (stern, bow), low = _places(marks, key, sheet)[:2], _places(marks, key, sheet)[-1, 1]
        if abs(bow[0] - stern[0]) < 1e-6:
            what = "its stern and its bow lie upon each other"
            raise PlanError(what, key, "Mark them at both ends of the hull.")
        height = low if key == "profile" else (stern[1] + bow[1]) / 2.0
        forward = "right" if bow[0] > stern[0] else "left"
        found[key] = View(origin=(float(stern[0]), float(height)), forward=forward)
    if marks.is_whole("body"):
        x, z = _places(marks, "body", sheet)[0].tolist()
        found["body"] = View(origin=(x, z), times=1.0 / _larger(marks))
    return found


def _larger(marks: Marks) -> float:
    """Return how many times larger sections are drawn than the other views [-].

    Raises:
        PlanError: It is no such number.
    """
    text = marks.said("larger").replace(",", ".").rstrip("×x ") or "1"
    try:
        larger = float(text)
    except ValueError:
        larger = 0.0
    if not 0.01 <= larger <= 100.0:
        what = f"'{text}' times larger is no size of a drawing"
        raise PlanError(what, "larger", "Enter a number, 1 where all views have one scale.")
    return larger


def _stations(
    marks: Marks, scale: float | None, unit: str | None, troubles: dict[str, TrimdiveError]
) -> dict[str, float]:
    """Return at which stations sections stand, from the stern [m]; what is wrong is told.

    One that is only begun stands nowhere yet.
    """
    found: dict[str, float] = {}
    share = share_of(marks, scale)
    for key in marks.sections:
        try:
            if len(marks.of(key)) >= LEAST:
                found[key] = _station(marks.said(key), share, unit)
        except TrimdiveError as error:
            troubles[key] = error
    return found


def _station(text: str, share: float, unit: str | None) -> float:
    """Return a station from the stern, of the model [m].

    Raises:
        TrimdiveError: None is entered, or it is no length.
    """
    if not text:
        raise PlanError("its station is not entered", "sections", "Enter it, from the stern.")
    if text.strip() == "0":
        return 0.0
    return length_of(text, share, unit)


def _hull(
    marks: Marks,
    sheet: Sheet,
    views: Mapping[str, View],
    stations: Mapping[str, float],
    size: tuple[int, int],
) -> Traced | None:
    """Return the hull; None while lines that it needs are still to be traced.

    Raises:
        PlanError: Lines cross, run back or end apart, or a section lies outside.
    """
    sections: list[TracedSection] = []
    for key, x in stations.items() if "body" in views else ():
        try:
            points = views["body"].section(_places(marks, key, sheet))
        except PlanError as error:
            raise PlanError(error.what, key, error.mend) from None
        sections.append(TracedSection(x=x, points=points))
    if "profile" not in views or len(marks.of("keel")) < 2 or len(marks.of("deck")) < 2:
        return None
    if not sections:
        return None
    plan = None
    if "plan" in views and len(marks.of("half")) > 1:
        plan = views["plan"].half_breadths(_places(marks, "half", sheet))
    worth = sheet.worth((size[0] / 2.0, size[1] / 2.0))
    bow = float(views["profile"].lengthways(_places(marks, "profile", sheet)[1:2])[0, 0])
    keel, deck = (
        _to_marks(views["profile"].lengthways(_places(marks, key, sheet)), bow)
        for key in ("keel", "deck")
    )
    return traced(keel, deck, plan, tuple(sections), worth)


def _to_marks(line: Floats, bow: float) -> Floats:
    """Return a line of the profile, its ends at the stern and the bow where it ends near them."""
    ends = line.copy()
    for end, at in ((0, 0.0), (-1, bow)):
        if abs(ends[end, 0] - at) <= END * bow:
            ends[end, 0] = at
    return ends


def _waterline(
    marks: Marks,
    sheet: Sheet,
    views: Mapping[str, View],
    hull: Traced,
    troubles: dict[str, TrimdiveError],
) -> Waterline | None:
    """Return the waterline that was marked; None where none was, or what is wrong is told."""
    points = _places(marks, "waterline", sheet)
    if len(points) < 2:
        return None
    try:
        return waterline_of(views["profile"].lengthways(points), hull)
    except TrimdiveError as error:
        troubles["waterline"] = error
        return None


def _drawn(
    hull: Traced, marks: Marks, sheet: Sheet, views: Mapping[str, View], order: list[str]
) -> dict[str, Floats]:
    """Return the lines that are taken, over the picture, shape (n, 2) each [pixels]."""
    found: dict[str, Floats] = {}
    for key, line in (("keel", hull.keel), ("deck", hull.deck), ("half", hull.half)):
        if not len(line):
            continue
        x = np.linspace(line[0, 0], line[-1, 0], FINE)
        view = views[VIEW_OF[key]]
        up = _places(marks, key, sheet)[:, 1].mean() - view.origin[1]
        side = -1.0 if key == "half" and up < 0.0 else 1.0
        across = np.stack([x, side * on_line(line, x)], axis=1)
        found[key] = sheet.pixels(on_sheet(view, across))
    for key, section in zip(order, hull.sections, strict=True):
        right = _places(marks, key, sheet)[:, 0].mean() >= views["body"].origin[0]
        points = section.points * (1.0 if right else -1.0, 1.0)
        found[key] = sheet.pixels(points / views["body"].times + views["body"].origin)
    return found


def _spots(
    apart: tuple[Apart, ...], drawn: Mapping[str, Floats], sheet: Sheet, views: Mapping[str, View]
) -> Floats:
    """Return where views differ, on the lines that are taken, shape (n, 2) [pixels]."""
    found: list[Floats] = []
    for one in apart:
        key = "half" if one.what == "half-breadth" else one.what
        if abs(one.off) >= TELLS and key in drawn:
            x = views[VIEW_OF[key]].lengthways(sheet.at(drawn[key]))[:, 0]
            found.append(drawn[key][int(np.argmin(np.abs(x - one.x)))])
    return np.array(found).reshape(-1, 2)


def on_sheet(view: View, line: Floats) -> Floats:
    """Return where a line along the model lies on the sheet, shape (n, 2) [m]."""
    way = (1.0 if view.forward == "right" else -1.0, 1.0)
    return line / view.times * way + view.origin
