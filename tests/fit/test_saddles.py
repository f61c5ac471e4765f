"""Saddles in a box of a hull, where everything about them is known by hand."""

import pytest
from tests.findings.checks import part
from tests.rest.crate import crate

from trimdive.fit.saddles import STEP, THICK, Saddle, saddles

GAP = 0.0005


def found(more: str = "") -> tuple[Saddle, ...]:
    boat = crate(more)
    return saddles(boat.boat, boat.scene, GAP)


def block(x: float, length: float, z: float = 10, *, name: str = "ballast") -> str:
    """Return a block of lead on the keel [mm]."""
    box = f'shape = "box"; length = {length}; breadth = 40; height = 12'
    return part(name, f"x = {x}; z = {z}; {box}").replace("[[part]]", "[[lead]]")


def test_they_stand_at_the_quarter_points() -> None:
    """Cylinder 600 mm about 500: at 350 and 650.

    The hull 200 mm broad with a skin of 2 mm; its keel 2 mm thick, the axis at 60: 196 by 58 mm.
    """
    aft, fore = found()
    for one in (aft, fore):
        assert one.breadth == pytest.approx(0.196, abs=1e-6)
        assert one.height == pytest.approx(0.058, abs=1e-6)
        assert one.cut == pytest.approx(0.121)
        assert one.in_way == ()
    assert aft.x == pytest.approx(0.350)
    assert fore.x == pytest.approx(0.650)


def test_one_stands_beside_what_is_in_its_way() -> None:
    """Lead from 345 to 375: the plate, 6 mm, goes 8 mm aft of 350, its fore side at 345."""
    aft, _ = found(block(360, 30))
    assert aft.in_way == ()
    assert aft.off == pytest.approx(-(0.005 + THICK / 2), abs=STEP + 1e-9)
    assert aft.x + THICK / 2 <= 0.345 + 1e-9
    above, _ = found(block(360, 30, z=150))
    assert above.off == 0.0  # over the axis nothing is in its way


def test_where_all_is_taken_it_says_what_to_notch_over() -> None:
    aft, fore = found(block(350, 290, name="long lead"))
    assert aft.in_way == ("long lead",)
    assert aft.off == 0.0
    assert fore.in_way == ()
