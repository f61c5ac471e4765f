"""From a place in the picture to a place on the sheet: levelled, stretched, perspective undone.

A sheet is measured in metres, x to the right and z up from any place that is its own; what a metre
is, paper, model or the real ship, is what the builder's known lengths were given in.

Source:
    Hartley and Zisserman, Multiple View Geometry in Computer Vision, 2nd edition, 4.4.4
    (normalised direct linear transformation) and 7.4 (radial distortion, one term); from memory.
"""

from dataclasses import dataclass

import numpy as np

from trimdive.errors import PlanError
from trimdive.geometry.lines import Floats
from trimdive.records import record

Mark = tuple[float, float]  # a place in the picture: pixels to the right and down [-]
MARKS = "the plan's marks"  # where, in an error
NEWTON = 30  # steps at most in which a lens is undone; ten are usual [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Lens:
    """One radial term: a point at r from the centre is seen at r·(1 + bend·(r/reach)²)."""

    centre: Mark = (0.0, 0.0)
    reach: float = 1.0  # half the diagonal of the picture, in pixels [-]
    bend: float = 0.0  # positive pincushion, negative barrel [-]

    def straightened(self, pixels: Floats) -> Floats:
        """Return where points would be seen without a lens's bend.

        Args:
            pixels: Shape (n, 2) [-].

        Raises:
            PlanError: No point of the sheet is seen there, so strong is the bend.
        """
        if self.bend == 0.0:
            return pixels
        out = (pixels - np.array(self.centre)) / self.reach
        seen = np.linalg.norm(out, axis=1)
        true = seen.copy()
        for _ in range(NEWTON):
            slope = 1.0 + 3.0 * self.bend * true**2
            if slope.min() <= 0.0:
                what = "the bend of this lens would fold the picture over itself"
                raise PlanError(what, MARKS, "Place the known points anew, one after the other.")
            true = true - (true + self.bend * true**3 - seen) / slope
        share = np.divide(true, seen, out=np.ones_like(seen), where=seen > 0.0)
        return np.array(self.centre) + out * share[:, None] * self.reach

    def bent(self, straight: Floats) -> Floats:
        """Return where points are seen through the lens.

        Args:
            straight: Where they would be seen without its bend, shape (n, 2) [-].
        """
        out = (straight - np.array(self.centre)) / self.reach
        square = (out**2).sum(axis=1, keepdims=True)
        return np.array(self.centre) + out * (1.0 + self.bend * square) * self.reach


@record
class Sheet:
    """How the picture lies on the sheet."""

    matrix: Floats  # straightened pixels to places, homogeneous, shape (3, 3) [m]
    lens: Lens

    def at(self, pixels: Floats) -> Floats:
        """Return places on the sheet of places in the picture.

        Args:
            pixels: Shape (n, 2) [-].

        Returns:
            Shape (n, 2) [m].

        Raises:
            PlanError: A place lies beyond the horizon of the sheet.
        """
        flat = self.lens.straightened(np.asarray(pixels, dtype=np.float64).reshape(-1, 2))
        seen = flat @ self.matrix[:, :2].T + self.matrix[:, 2]
        if (seen[:, 2] <= 0.0).any():
            mend = "Mark a place on the sheet itself."
            raise PlanError("a place lies beyond the horizon of the sheet", MARKS, mend)
        return seen[:, :2] / seen[:, 2:]

    def pixels(self, places: Floats) -> Floats:
        """Return where places on the sheet are seen in the picture.

        Args:
            places: Shape (n, 2) [m].

        Returns:
            Shape (n, 2) [-].
        """
        back = np.linalg.inv(self.matrix)
        seen = np.asarray(places, dtype=np.float64).reshape(-1, 2) @ back[:, :2].T + back[:, 2]
        return self.lens.bent(seen[:, :2] / seen[:, 2:])

    def worth(self, pixel: Mark) -> float:
        """Return how much of the sheet a pixel covers there, the longer of its sides.

        Args:
            pixel: Where.

        Returns:
            [m].
        """
        x, y = pixel
        places = self.at(np.array([(x - 0.5, y), (x + 0.5, y), (x, y - 0.5), (x, y + 0.5)]))
        sides = np.linalg.norm(places[1::2] - places[::2], axis=1)
        return float(sides.max())


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """A length on the sheet that is known from elsewhere."""

    start: Mark
    end: Mark
    length: float  # true length [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class Checked:
    """What a known length measures on the sheet."""

    known: float  # [m]
    measured: float  # [m]

    @property
    def off(self) -> float:
        """Return by how much the sheet measures too long [m]."""
        return self.measured - self.known

    @property
    def share(self) -> float:
        """Return the same as a share of the known length [-]."""
        return self.off / self.known


def check_length(sheet: Sheet, known: Known) -> Checked:
    """Return how far a third length, that was not used to level the sheet, is off.

    Args:
        sheet: The sheet.
        known: Two marks and the true length between them.

    Raises:
        PlanError: The marks lie upon each other, or the length is none.
    """
    refuse_short(known.start, known.end)
    refuse_no_length(known.length)
    ends = sheet.at(np.array([known.start, known.end]))
    return Checked(known=known.length, measured=float(np.linalg.norm(ends[1] - ends[0])))


def refuse_short(start: Mark, end: Mark) -> None:
    """Refuse two marks between which nothing can be measured.

    Raises:
        PlanError: They lie upon each other, or are no places.
    """
    figures = np.array([start, end], dtype=np.float64)
    if not np.isfinite(figures).all():
        raise PlanError("a mark is no place in the picture", MARKS, "Place it again.")
    if np.hypot(*(figures[1] - figures[0])) < 2.0:
        what = f"two marks lie upon each other at {start[0]:.0f}, {start[1]:.0f}"
        raise PlanError(what, MARKS, "Move one of them to the other end.")


def refuse_no_length(length: float) -> None:
    """Refuse what is no length.

    Args:
        length: As it was entered [m].

    Raises:
        PlanError: It is zero, negative or no number.
    """
    if not (np.isfinite(length) and length > 0.0):
        what = f"a known length is {length:g} m"
        raise PlanError(what, MARKS, "Enter the true length between its marks, above zero.")
