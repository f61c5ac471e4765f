"""How the boat stands on the sheet: which way is right and up, and where her origin lies."""

from dataclasses import dataclass

import numpy as np

from trimdive.geometry.lines.mesh import Floats

MM = 1000.0  # millimetres in a metre


@dataclass(frozen=True, slots=True, kw_only=True)
class View:
    """A view of the boat on the sheet, true to scale."""

    right: Floats  # in boat axes, shape (3,) [-]
    up: Floats  # in boat axes, shape (3,) [-]
    x: float  # of the boat's origin on the sheet, from its left edge [mm]
    y: float  # of the boat's origin on the sheet, downwards from its top [mm]

    def on(self, points: Floats) -> Floats:
        """Return points of the boat, shape (n, 3) [m], on the sheet, shape (n, 2) [mm]."""
        r = np.atleast_2d(points)
        return np.column_stack([self.x + MM * (r @ self.right), self.y - MM * (r @ self.up)])

    def at(self, point: Floats) -> tuple[float, float]:
        """Return one point of the boat on the sheet [mm]."""
        x, y = self.on(point)[0]
        return float(x), float(y)

    def lifted(self, flat: Floats) -> Floats:
        """Return points seen at these places in the view, shape (n, 2) [m], on the sheet [mm]."""
        return np.column_stack([self.x + MM * flat[:, 0], self.y - MM * flat[:, 1]])

    def moved(self, x: float, y: float) -> "View":
        """Return the same view elsewhere on the sheet."""
        return View(right=self.right, up=self.up, x=x, y=y)


def views(n: Floats) -> tuple[View, View]:
    """Return side view and plan of a boat for which ``n`` is up, both with the bow to the right.

    The water is level in the side view, seen from starboard; the plan looks down on her deck,
    along her own axes, so that it is true to scale however she tips.
    """
    ahead = np.array([1.0, 0.0, 0.0]) - n[0] * n
    size = float(np.linalg.norm(ahead))
    forward = ahead / size if size > 1e-9 else np.array([0.0, 0.0, -float(np.sign(n[0]))])
    along, port = np.eye(3)[:2]
    return View(right=forward, up=n, x=0.0, y=0.0), View(right=along, up=port, x=0.0, y=0.0)
