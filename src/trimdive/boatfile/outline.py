"""A region from what a garage can measure: keel and deck line, breadths, characters of section."""

from typing import Annotated, Literal

from pydantic import BeforeValidator, Field

from trimdive.boatfile.piece import Piece
from trimdive.boatfile.quantities import NOT_GIVEN, Depth, Length, Share, Size
from trimdive.errors import UnitError

Finish = Literal["round", "sharp"]
ENDS = ("stern", "bow")


def _is_run_of_points(value: object) -> object:
    """Return a list of pairs as it stands.

    Raises:
        UnitError: It is none.
    """
    mend = 'Write half-breadth and height of each, as points = [["0 mm", "2 mm"], …].'
    if not isinstance(value, list | tuple):
        raise UnitError("this is no list of points", "points", mend)
    for number, pair in enumerate(value, 1):
        if not isinstance(pair, list | tuple) or len(pair) != 2 or None in pair:
            raise UnitError(f"point {number} is not a pair of figures", "points", mend)
    return value


Point = tuple[Depth, Length]
Points = Annotated[tuple[Point, ...], BeforeValidator(_is_run_of_points)]


class ProfileRow(Piece):
    """Keel and deck at one place; either may be left out."""

    x: Length = Field(description="Place along the boat.")
    keel: Length | None = Field(default=None, description="Height of the keel there.")
    deck: Length | None = Field(
        default=None, description="Height of the deck there, on the centre line."
    )


class BreadthRow(Piece):
    """How broad the hull is at one place; give the breadth or the half-breadth."""

    x: Length = Field(description="Place along the boat.")
    breadth: Depth | None = Field(default=None, description="Greatest breadth there, both sides.")
    half: Depth | None = Field(default=None, description="Half of it, from the centre line.")
    widest: Length | None = Field(
        default=None, description="Height at which she is widest there, above the keel line."
    )
    deck_breadth: Depth | None = Field(
        default=None, description="Breadth of the flat of the deck there, both sides."
    )


class SectionRow(Piece):
    """What the section is like at one place."""

    x: Length = Field(description="Place along the boat.")
    shape: Literal["round", "oval", "box", "knuckled", "points"] = Field(
        description="Its character; knuckled runs straight between its points, points runs fair."
    )
    radius: Depth | None = Field(default=None, description="Radius of a box's corners below.")
    deck_radius: Depth | None = Field(
        default=None, description="Radius of a box's corners at the deck; left out, as below."
    )
    points: Points = Field(
        default=(), description="Pairs of half-breadth and height, from keel to deck."
    )
    knuckles: tuple[int, ...] = Field(
        default=(), description="Which points are sharp edges, counted from 1 at the keel."
    )


class TracedSpread(Piece):
    """How far a hull traced from a plan may be off, besides what was not traced.

    By its views, which are apart, its ink and its scale; the truth lies within in 95 of 100 cases.
    It is written when the lines are taken.
    """

    whole: Share = Field(default=0.0, description="Of the volume of the whole outside shape.")
    volume: Share = Field(default=0.0, description="Of the volume below the waterline.")
    waterplane: Share = Field(default=0.0, description="Of the area of the waterplane.")
    bm: Share = Field(default=0.0, description="Of the transverse metacentric radius, BM.")


class Outlined(Piece):
    """What is measured of a hull."""

    length: Size = Field(default=NOT_GIVEN, description="Needed: length from end to end.")
    breadth: Size = Field(default=NOT_GIVEN, description="Needed: greatest breadth, both sides.")
    height: Size = Field(default=NOT_GIVEN, description="Needed: keel to deck, amidships.")
    stern: Finish | None = Field(
        default=None, description="Whether the after end is round or sharp seen from above."
    )
    bow: Finish | None = Field(
        default=None, description="Whether the fore end is round or sharp seen from above."
    )
    profile: tuple[ProfileRow, ...] = Field(
        default=(), description="Keel and deck line; both ends at least."
    )
    breadths: tuple[BreadthRow, ...] = Field(
        default=(), description="Breadths at a few places; what is left out at an end is nothing."
    )
    section: tuple[SectionRow, ...] = Field(
        default=(), description="Character of the section at three places or more."
    )
    traced: TracedSpread | None = Field(
        default=None, description="How far the plan may be off from which the lines were traced."
    )

    @property
    def rows(self) -> dict[str, tuple[ProfileRow | BreadthRow | SectionRow, ...]]:
        """Return every list of figures by its name in the file."""
        return {"profile": self.profile, "breadths": self.breadths, "section": self.section}
