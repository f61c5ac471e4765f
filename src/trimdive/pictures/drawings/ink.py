"""Ink: three weights of line, three sizes of lettering, and a hatch for each kind of thing.

All sizes are of the paper; ``Ink`` turns them into millimetres of the model by the scale of the
drawing. Everything is in ``currentColor`` on a transparent ground: one drawing serves light, dark
and paper.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np

from trimdive.geometry.lines.mesh import Floats
from trimdive.pictures.drawings.svg import clean, tag, way, ways

Weight = Literal["fine", "plain", "bold"]
Size = Literal["small", "plain", "large"]
Hatch = Literal["above", "lead", "foam", "water"]
Anchor = Literal["start", "middle", "end"]

WEIGHTS: dict[Weight, float] = {"fine": 0.16, "plain": 0.32, "bold": 0.64}  # mm of paper
SIZES: dict[Size, float] = {"small": 3.1, "plain": 4.2, "large": 8.4}  # mm of paper
FACE = "DejaVu Sans, sans-serif"
LETTER = 0.58  # breadth of a letter over the size of the lettering, on the safe side [-]
DASHES = {"": (), "guess": (1.6, 1.0), "waterline": (7.0, 1.2, 0.8, 1.2), "station": (0.4, 1.6)}


@dataclass(frozen=True, slots=True, kw_only=True)
class Ink:
    """Pen and lettering for one scale of drawing."""

    scale: float  # mm of the model in one mm of paper [-]

    def mm(self, paper: float) -> float:
        """Return the model's millimetres in millimetres of paper."""
        return paper * self.scale

    def pen(self, weight: Weight, dash: str = "", light: bool = False) -> dict[str, str | float]:
        """Return the attributes of a line."""
        dashes = " ".join(f"{self.mm(part):.2f}" for part in DASHES[dash])
        return {
            "fill": "none",
            "stroke": "currentColor",
            "stroke_width": self.mm(WEIGHTS[weight]),
            "stroke_dasharray": dashes,
            "stroke_opacity": "0.55" if light else "",
        }

    def line(
        self,
        points: Sequence[tuple[float, float]] | Floats,
        weight: Weight = "fine",
        dash: str = "",
        **more: str,
    ) -> str:
        """Return an open line through points of the sheet [mm]."""
        path = way(np.asarray(points), closed=False)
        return tag("path", d=path, **{**self.pen(weight, dash), **more})

    def shape(
        self,
        loops: list[Floats],
        weight: Weight,
        *,
        fill: str = "none",
        dash: str = "",
        **more: str,
    ) -> str:
        """Return closed lines with a fill between them; nothing where there are none."""
        drawn = [loop for loop in loops if len(loop) > 2]
        if not drawn:
            return ""
        pen = {**self.pen(weight, dash), "fill": fill, "fill_rule": "evenodd"}
        return tag("path", d=ways(drawn), **{**pen, **more})

    def hatched(self, loops: list[Floats], hatch: Hatch, **more: str) -> str:
        """Return closed lines filled with a hatch, without an outline."""
        fill = f"url(#{self.name(hatch)})"
        return self.shape(loops, "fine", fill=fill, stroke="none", **more)

    def words(
        self,
        x: float,
        y: float,
        text: str,
        size: Size = "small",
        anchor: Anchor = "start",
        **more: str,
    ) -> str:
        """Return lettering on a base line."""
        given = {"class_": "words", **more}
        return tag(
            "text",
            clean(text),
            x=x,
            y=y,
            font_size=self.mm(SIZES[size]),
            text_anchor=anchor,
            **given,
        )

    def breadth(self, text: str, size: Size = "small") -> float:
        """Return about how broad lettering comes out [mm of the model]."""
        return self.mm(SIZES[size]) * LETTER * len(text)

    def name(self, hatch: str) -> str:
        """Return the name of a hatch in the drawing; one name is one look on a whole page."""
        return f"{hatch}-{self.scale:g}".replace(".", "-")

    def hatches(self) -> str:
        """Return the hatches, to stand at the head of a drawing."""
        return tag("defs", self._above(), self._lead(), self._foam(), self._water())

    def _pattern(self, name: str, pitch: tuple[float, float], turn: float, *inside: str) -> str:
        return tag(
            "pattern",
            *inside,
            id=self.name(name),
            patternUnits="userSpaceOnUse",
            width=self.mm(pitch[0]),
            height=self.mm(pitch[1]),
            patternTransform=f"rotate({turn:g})",
        )

    def _stripe(self, length: float, at: float, weight: float) -> str:
        return tag(
            "path",
            d=f"M0,{self.mm(at):.2f}H{self.mm(length):.2f}",
            stroke="currentColor",
            stroke_width=self.mm(weight),
        )

    def _above(self) -> str:
        return self._pattern("above", (4.0, 1.7), -45.0, self._stripe(4.0, 0.85, 0.2))

    def _lead(self) -> str:
        across = tag(
            "g",
            self._stripe(0.75, 0.37, 0.3),
            transform=f"rotate(90 {self.mm(0.375):.3f} {self.mm(0.375):.3f})",
        )
        return self._pattern("lead", (0.75, 0.75), 45.0, self._stripe(0.75, 0.37, 0.3), across)

    def _foam(self) -> str:
        dots = (
            tag("circle", cx=self.mm(x), cy=self.mm(y), r=self.mm(0.2), fill="currentColor")
            for x, y in ((0.4, 0.4), (1.2, 1.2))
        )
        return self._pattern("foam", (1.6, 1.6), 0.0, *dots)

    def _water(self) -> str:
        rows = (self._stripe(2.4, 0.4, 0.18), self._stripe(1.2, 1.2, 0.18))
        return self._pattern("water", (3.2, 1.6), 0.0, *rows)
