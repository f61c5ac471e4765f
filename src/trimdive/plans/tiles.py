"""The picture of a plan in squares, at halves of its size: what a page shows of it at any zoom."""

import io
from dataclasses import dataclass, field

import numpy as np

from trimdive.plans.picture import Grey

SIDE = 512  # of a square, in pixels of its own level [-]
MOST = 12  # levels; 100 million pixels have some ten [-]


@dataclass(slots=True)
class Tiles:
    """Squares of one picture; each level has half the pixels of the one before, both ways."""

    grey: Grey  # shape (height, width)
    levels: dict[int, Grey] = field(default_factory=dict[int, Grey])

    @property
    def size(self) -> tuple[int, int]:
        """Return width and height in pixels."""
        return int(self.grey.shape[1]), int(self.grey.shape[0])

    def at_level(self, level: int) -> Grey:
        """Return the picture with each pixel the mean of 2^level by 2^level."""
        if level <= 0:
            return self.grey
        if level not in self.levels:
            self.levels[level] = _halved(self.at_level(level - 1))
        return self.levels[level]

    def tile(self, level: int, across: int, down: int) -> bytes | None:
        """Return one square as PNG; None where there is none.

        Args:
            level: How often the picture is halved.
            across: Which square, counted from the left from zero.
            down: Which, counted from above.
        """
        if not 0 <= level <= MOST or across < 0 or down < 0:
            return None
        held = self.at_level(level)
        square = held[down * SIDE : (down + 1) * SIDE, across * SIDE : (across + 1) * SIDE]
        return png_of(square) if square.size else None


def _halved(grey: Grey) -> Grey:
    """Return a picture of half the size; an odd last row or column is repeated."""
    height, width = grey.shape
    even = np.pad(grey, ((0, height % 2), (0, width % 2)), mode="edge").astype(np.uint16)
    four = even[::2, ::2] + even[1::2, ::2] + even[::2, 1::2] + even[1::2, 1::2]
    return ((four + 2) // 4).astype(np.uint8)


def png_of(grey: Grey) -> bytes:
    """Return shades of grey as a PNG, quickly rather than small."""
    from PIL import Image

    held = io.BytesIO()
    Image.fromarray(grey).save(held, "PNG", compress_level=3)
    return held.getvalue()


def ink_of(ink: Grey) -> bytes:
    """Return ink alone as a PNG, on clear paper.

    Args:
        ink: 0 paper, 255 black, shape (h, w).
    """
    from PIL import Image

    held = io.BytesIO()
    clear = Image.fromarray(ink)
    Image.merge("LA", (Image.new("L", clear.size, 0), clear)).save(held, "PNG", compress_level=3)
    return held.getvalue()
