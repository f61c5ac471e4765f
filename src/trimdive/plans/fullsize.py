"""What was measured on the real ship, or marked on her plan, as pieces of the model's boat file.

The waterline, the places where draughts are read and openings keep their kind and their names;
every length is multiplied by the scale.
"""

from collections.abc import Mapping
from typing import Any, TypeVar, cast

import numpy as np

from trimdive.boatfile import Draught, Mark, Opening, Waterline
from trimdive.errors import PlanError
from trimdive.geometry.lines import Floats
from trimdive.plans.agree import on_line
from trimdive.plans.views import Traced

Marked = TypeVar("Marked", Waterline, Mark, Opening)
Figures = Mapping[str, object]  # of a piece, by the names of its fields
ON_PLAN = "the waterline"  # where, in an error
LEVEL = 1.0  # a waterline that rises by less than so many pixels is level [-]
LEAST = 1e-5  # of scales that are believed: the model of a ship, not of a country [-]


def at_scale(kind: type[Marked], scale: float, figures: Figures) -> Marked:
    """Return a piece of the model of what was measured on the real ship.

    Args:
        kind: A waterline, a place where the draught is read, or an opening.
        scale: Length of the model to that of the ship, as 1/48 [-].
        figures: Its fields; numbers are lengths at full size, in metres.

    Raises:
        PlanError: It is no scale of a model.
        UnitError: A length is more than a model boat can have.

    >>> at_scale(Waterline, 0.02, {"height": 4.5}).height
    0.09
    """
    if not LEAST <= scale <= 1.0:
        what = f"a scale of {scale:g} makes no model"
        raise PlanError(what, "scale", "Enter how long the model is to the ship, as 1:48.")
    return kind(**_scaled(figures, scale))


def _scaled(figures: Figures, scale: float) -> dict[str, Any]:
    """Return fields with every number multiplied by the scale."""
    found: dict[str, Any] = {}
    for name, value in figures.items():
        if isinstance(value, float | int) and not isinstance(value, bool):
            found[name] = value * scale
        elif isinstance(value, Mapping):
            found[name] = _scaled(cast("Figures", value), scale)
        else:
            found[name] = value
    return found


def waterline_of(points: Floats, hull: Traced) -> Waterline:
    """Return the waterline through marks on the profile, level where it rises less than a pixel.

    Args:
        points: Place along the boat and height of two marks or more, shape (n, 2) [m].
        hull: The hull traced on the same profile.

    Raises:
        PlanError: One mark, marks upon each other, or a waterline that she cannot float at.
    """
    x, z = np.asarray(points, dtype=np.float64).reshape(-1, 2).T
    if len(x) < 2 or not np.isfinite(z + x).all() or float(np.ptp(x)) < 2.0 * hull.worth:
        mend = "Mark it twice, far apart along the boat."
        raise PlanError("its marks lie upon each other", ON_PLAN, mend)
    slope, start = np.polyfit(x, z, 1).tolist()
    stern, bow = hull.ends
    if abs(slope) * (bow - stern) < LEVEL * hull.worth:
        slope, start = 0.0, float(z.mean())
    _refuse_dry(hull, slope, start)
    if slope == 0.0:
        return Waterline(height=start)
    aft, fore = (Draught(x=place, height=start + slope * place) for place in (stern, bow))
    return Waterline(aft=aft, fore=fore)


def _refuse_dry(hull: Traced, slope: float, start: float) -> None:
    """Refuse a waterline under the keel, or over the deck, all along.

    Raises:
        PlanError: It is.
    """
    stern, bow = hull.ends
    x = np.linspace(stern, bow, 101)
    level = start + slope * x
    if (level <= on_line(hull.keel, x)).all():
        raise PlanError("it lies under the keel all along", ON_PLAN, "Mark it above the keel.")
    if (level >= on_line(hull.deck, x)).all():
        raise PlanError("it lies over the deck all along", ON_PLAN, "Mark it below the deck.")
