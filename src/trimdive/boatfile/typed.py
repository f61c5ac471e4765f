"""Figures as they are typed in a boat file, so that they can be quoted as they stand there."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

Figures = Mapping[str, str | int | float]


@dataclass(frozen=True, slots=True)
class Typed:
    """What is typed in a boat file; it tells no two boats apart: "25 cm" is "250 mm"."""

    figures: Figures = field(default_factory=dict[str, str | int | float], compare=False)


def figures_in(contents: Mapping[str, Any]) -> Typed:
    """Return the figures of the tables in a boat file, by their places.

    Args:
        contents: What the file holds.

    >>> figures_in({"part": [{"mass": "25.5 g"}], "waterline": {"height": 154}}).figures
    {'part[1].mass': '25.5 g', 'waterline.height': 154}
    """
    found: dict[str, str | int | float] = {}
    for name, held in contents.items():
        tables = enumerate(held, 1) if isinstance(held, list) else ((0, held),)
        for number, table in tables:
            if not isinstance(table, dict):
                continue
            path = f"{name}[{number}]" if number else name
            for key, value in table.items():
                is_figure = isinstance(value, str | int | float) and not isinstance(value, bool)
                if is_figure and key not in ("name", "note"):
                    found[f"{path}.{key}"] = value
    return Typed(found)
