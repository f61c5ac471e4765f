"""The half-breadth plan out of a picture, laid straight: to stand behind a drawing of the hull."""

from dataclasses import dataclass

import numpy as np
from scipy.ndimage import map_coordinates

from trimdive.plans.marks import Marks
from trimdive.plans.picture import Grey
from trimdive.plans.tracing import Tracing, on_sheet

WIDE = 1600  # pixels of what is laid straight, at most [-]
ROUND = 0.03  # how much of the paper is seen round the hull, as a share of her length [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Under:
    """Paper laid straight, her bow to the right and port up."""

    ink: Grey  # 0 paper, 255 black, shape (h, w)
    x: float  # of its left edge, from the stern [m]
    y: float  # of its upper edge, to port [m]
    length: float  # [m]
    breadth: float  # [m]


def plan_under(grey: Grey, marks: Marks, found: Tracing) -> Under | None:
    """Return the half-breadth plan laid straight; None where it is not traced.

    Args:
        grey: The picture, shape (h, w).
        marks: What was marked on it.
        found: What the marks come to.
    """
    hull, view = found.taken, found.views.get("plan")
    if hull is None or view is None or found.sheet is None or not len(hull.half):
        return None
    length = hull.ends[1] - hull.ends[0]
    edge = ROUND * length
    low, high = hull.ends[0] - edge, hull.ends[1] + edge
    top = float(hull.half[:, 1].max()) + edge
    wide = min(WIDE, grey.shape[1])
    tall = max(round(wide * (top + edge) / (high - low)), 2)
    x, y = np.meshgrid(np.linspace(low, high, wide), np.linspace(top, -edge, tall))
    traced = found.sheet.at(np.array([point.at for point in marks.of("half")]))
    side = -1.0 if float(traced[:, 1].mean()) < view.origin[1] else 1.0
    pixels = found.sheet.pixels(on_sheet(view, np.stack([x.ravel(), side * y.ravel()], axis=1)))
    shades = map_coordinates(grey, (pixels - 0.5)[:, ::-1].T, order=1, mode="nearest")
    paper = float(np.percentile(shades, 90))
    ink = np.clip(paper - shades.astype(np.float64), 0.0, 255.0) * (255.0 / max(paper, 1.0))
    shown = ink.reshape(tall, wide).astype(np.uint8)
    return Under(ink=shown, x=low, y=top, length=high - low, breadth=top + edge)
