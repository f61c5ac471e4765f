"""Readings taken off a hull by formula, and the example of the handbook page."""

import re
from pathlib import Path

import numpy as np
from tests.tape.hulls import Hull

from trimdive.estimates.tape import Girth, Moulding, Readings
from trimdive.estimates.tape.readings import Material

GRP = Material(name="GRP", density=1600.0, spread=200.0)
PAGE = Path(__file__).parents[2] / "docs" / "tape.md"
EXAMPLE = re.findall(r"```toml\n(.*?)```", PAGE.read_text("utf-8"), flags=re.DOTALL)[0]


def taken_off(
    hull: Hull,
    places: np.ndarray,
    walls: tuple[float, ...] = (),
    moulding: Moulding | None = None,
    kind: str = "wet",
) -> Readings:
    return Readings(
        name=hull.name,
        length=hull.length,
        kind="dry" if kind == "dry" else "wet",
        material=GRP,
        walls=walls,
        moulding=moulding,
        girths=tuple(
            Girth(x=float(x), girth=hull.girth(x), breadth=hull.breadth(x), number=i)
            for i, x in enumerate(places, 1)
        ),
    )
