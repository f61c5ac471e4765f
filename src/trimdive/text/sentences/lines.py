"""What is doubted of a table of lines, and which further measurement of an outline helps most."""

from trimdive.fact import Fact
from trimdive.geometry.lines.suspects import length_in
from trimdive.text.said import said, says
from trimdive.text.say import Say

UNDER = {  # what a column holds of a station
    "keel": "the keel",
    "keel half": "the half-breadth of the keel",
    "widest": "the height of the greatest breadth",
    "half breadth": "the half-breadth",
    "deck": "the deck",
    "deck half": "the half-breadth of the deck",
    "radius": "the radius",
    "axis": "the axis",
}
OUTLINED = {  # what is measured of an outline
    "keel": "the height of the keel",
    "deck": "the height of the deck",
    "half-breadth": "the half-breadth",
    "section": "the section, with calipers and a square,",
    "widest point": "the height at which she is widest",
}


@says("measure-outline")
def _measure_outline(say: Say, what: str, x: float) -> str:
    return f"Measure {OUTLINED[what]} at {say.place(x)}."


@says("figure-under")
def _figure_under(_: Say, column: str) -> str:
    return UNDER[column]


@says("figure-at-height")
def _figure_at_height(_: Say, height: str, unit: str) -> str:
    return f"height {height} {unit}"


@says("figure-at-breadth")
def _figure_at_breadth(_: Say, breadth: str, unit: str) -> str:
    return f"half-breadth {breadth} {unit}"


@says("figure-height")
def _figure_height(_: Say) -> str:
    return "height"


@says("figure-off")
def _figure_off(
    say: Say, station: str, figure: Fact, typed: str, off: float, is_height: bool, likely: str,
    about: float, unit: str,
) -> str:  # fmt: skip
    more, less = ("above", "below") if is_height else ("outside", "inside")
    apart = f"{length_in(off, unit)} {more if off > 0 else less}"
    meant = likely or f"about {length_in(about, unit)}"
    return f"station {station}, {said(say, figure)}: {typed} lies {apart} its neighbours; {meant}?"


@says("figures-exchanged")
def _figures_exchanged(
    say: Say, station: str, figure: Fact, other: Fact, typed: tuple[str, str]
) -> str:
    first, second = typed
    what = f"{first} and {second} ({said(say, other)})"
    return f"station {station}, {said(say, figure)}: are {what} swapped?"


@says("points-exchanged")
def _points_exchanged(_: Say, station: str, first: int, typed: tuple[str, str]) -> str:
    points = f"points {first} and {first + 1} ({' and '.join(typed)})"
    return f"station {station}: are {points} swapped?"


@says("heads-exchanged")
def _heads_exchanged(_: Say, first: str, second: str) -> str:
    return f"are the columns {first} and {second} swapped?"


@says("station-out-of-order")
def _station_out_of_order(_: Say, station: str, beside: str, is_first: bool, likely: str) -> str:
    where = f"{'before' if is_first else 'after'} {beside}"
    return f"station {station} is {where} and out of order{_meant(likely)}"


@says("station-unfair")
def _station_unfair(_: Say, station: str, gap: float, unit: str, likely: str) -> str:
    apart = length_in(gap, unit)
    return (
        f"station {station} lies {apart} from the next, and the lines are unfair there"
        f"{_meant(likely)}"
    )


def _meant(likely: str) -> str:
    """Return what the place of a station was likely meant to be."""
    return f"; {likely}?" if likely else "; the stations are taken in order of x."


@says("line-of-table")
def _line_of_table(say: Say, where: str, doubt: Fact) -> str:
    return f"{where}: {said(say, doubt)}"
