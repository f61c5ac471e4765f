"""How likely each boat is to give each answer.

Where a figure was told with the answer, boats that show another are less likely; only by how much
is left wide, since figures serve the pieces, not the cause.
"""

import numpy as np
from numpy.typing import NDArray

from trimdive.estimates.wethands.boats import Boats, Floats, Shows
from trimdive.estimates.wethands.figure import usual_of
from trimdive.estimates.wethands.known import Known, Reply
from trimdive.estimates.wethands.questions import BY_KEY

Table = dict[str, Floats]
BOTTOM, BOTTOM_OFF = np.radians(14.0), np.radians(6.0)  # from here on an end strikes the bottom
LOOSE = 0.3  # share by which a figure may differ from what a likely boat shows [-]
FILLINGS = (
    (0.78, "early"),
    (0.965, "nearly"),
    (1.003, "quite"),
)  # [-]
EDGE = 0.25  # over what share of a threshold people differ in what they call level [-]


def over(value: Floats, edge: float | Floats, soft: float | Floats) -> Floats:
    """Return how likely a value is called above an edge, shape (n,) [-].

    Args:
        value: Shape (n,) [any].
        edge: Where half call it so [any].
        soft: Over what width people differ [any].
    """
    return 1 / (1 + np.exp(-np.clip(1.7 * (value - edge) / soft, -60, 60)))


def _sided(value: Floats, edge: float, names: tuple[str, str, str]) -> Table:
    """Return how likely a value is called small, or large to either side."""
    large = over(np.abs(value), edge, EDGE * edge)
    plus = over(value, 0.0, EDGE * edge)
    none, one, other = names
    return {none: 1 - large, one: large * plus, other: large * (1 - plus)}


def _angle(on: Boats, at: Shows) -> Table:
    shown = np.where(on.under_way, 0.0, at.hung)
    found = _sided(shown, usual_of("level"), ("level", "bow", "stern"))
    bottom = over(np.abs(shown), float(BOTTOM), float(BOTTOM_OFF))
    for end in ("bow", "stern"):
        found[f"{end} bottom"] = found[end] * bottom
        found[end] = found[end] * (1 - bottom)
    return found


def _filling(at: Shows) -> Table:
    steps = [over(at.filling, edge, 0.008) for edge, _ in FILLINGS]
    early, nearly, quite = (1 - step for step in steps)
    return {
        "early": early,
        "nearly": nearly - early,
        "quite": quite - nearly,
        "never": steps[2],
    }


def _trouble(on: Boats, tips: Floats, filling: Floats, heel: Floats) -> Floats:
    """Return how bad she is dived; below 1 she is called right, shape (n,) [-].

    Args:
        on: The boats.
        tips: Angle lengthways [rad].
        filling: At which she is neutral; over 1 she stays up [-].
        heel: Angle across [rad].
    """
    shown = np.where(on.under_way, 0.0, np.abs(tips)) / usual_of("level")
    up = np.maximum(filling - 1.0, 0.0) / 0.01
    return np.maximum(np.maximum(shown, up), np.abs(heel) / usual_of("upright"))


def _mended(before: Floats, after: Floats) -> Table:
    """Return how likely she is called right, better or the same after a test.

    Args:
        before: How bad she was; below 1 called right, shape (n,) [-].
        after: The same after it, shape (n,) [-].
    """
    right, good = 1 - over(after, 1.0, EDGE), 1 - over(before, 1.0, EDGE)
    same = over(after / np.maximum(before, 1e-9), 0.8, 0.08)
    no = 0.5 * right * good + (1 - right) * same
    return {"yes": right * (1 - 0.5 * good), "better": (1 - right) * (1 - same), "no": no}


def _yes(share: Floats) -> Table:
    return {"yes": share, "no": 1 - share}


def likely(key: str, on: Boats, at: Shows) -> Table:
    """Return how likely each boat is to give each option of a question, each shape (n,) [-]."""
    if key == "angle":
        return _angle(on, at)
    if key == "surfaced":
        return _sided(at.afloat, usual_of("level-afloat"), ("level", "bow", "stern"))
    if key == "filling":
        return _filling(at)
    if key == "ride":
        return _sided(on.rides, usual_of("ride"), ("right", "low", "high"))
    if key == "rock":
        before = _trouble(on, at.hung, at.filling, on.hangs)
        return _mended(before, _trouble(on, at.rocked, at.rocked_filling, on.hangs))
    if key == "full":
        level = usual_of("level")
        return _mended(np.abs(at.hung) / level, np.abs(at.full) / level)
    if key == "over":
        return _yes(np.where(at.stays, 0.95, 0.02))
    if key == "closed":
        return _yes(np.where(on.closed, 0.95, 0.03))
    if key == "way":
        return _yes(np.where(on.under_way, 0.97, 0.01))
    heel = on.heels if key == "list" else on.hangs
    return _sided(heel, usual_of("upright"), ("upright", "starboard", "port"))


def fits_of(reply: Reply, known: Known, on: Boats, at: Shows) -> Floats:
    """Return how likely each boat is to give an answer as it was given, shape (n,) [-]."""
    if reply.key not in BY_KEY or not BY_KEY[reply.key].options:
        return np.ones(on.bg.size)
    found = likely(reply.key, on, at)[reply.option]
    shown = _size_shown(reply, known, on, at)
    if shown is None or reply.size is None:
        return found
    loose = np.maximum(LOOSE * np.abs(reply.size.value), reply.size.spread)
    return found * np.exp(-0.5 * ((shown - reply.size.value) / loose) ** 2)


def _size_shown(reply: Reply, known: Known, on: Boats, at: Shows) -> NDArray[np.float64] | None:
    """Return what each boat shows of a figure that was told, or None where it serves no cause."""
    if reply.size is None:
        return None
    shown = {"angle": np.abs(at.hung), "ride": np.abs(on.rides)}.get(reply.key)
    if reply.key == "list":
        return np.abs(on.heels)
    if reply.key == "heel":
        return np.abs(on.hangs)
    if reply.key == "surfaced" and reply.kind == "length":
        return np.abs(at.afloat)
    return shown
