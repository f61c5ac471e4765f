"""The shell as it came in, on the crate: wall, bend, twist and sides."""

from math import atan, degrees

import pytest
from tests.findings.checks import one, ran
from tests.rest.crate import crate
from tests.said import what_of

from trimdive.assessment import Assessment
from trimdive.findings.shell import bend

HULL = "z_top = 180\nthickness = 2"


def shell(tables: str) -> Assessment:
    """Return the crate with readings of its shell."""
    return crate(hull=f"{HULL} -> {HULL}\n{tables}")


def walls(*sizes: float) -> str:
    spots = ", ".join(f"{{ x = {100 + 300 * k}, thickness = {t} }}" for k, t in enumerate(sizes))
    return f"walls = [{spots}]"


def board(*pairs: tuple[float, float]) -> str:
    step = 1000 / (len(pairs) - 1)
    spots = ", ".join(
        f"{{ x = {step * k:g}, port = {p}, starboard = {s} }}" for k, (p, s) in enumerate(pairs)
    )
    return f"board = [{spots}]"


def test_wall_that_differs_from_spot_to_spot() -> None:
    """1.6, 2.0 and 2.4 mm: 0.8 mm over a mean of 2.0 is 40 %; 30 % is let pass."""
    boat = crate(hull=f"{HULL} -> z_top = 180\n{walls(1.6, 2.0, 2.4)}")
    assert "1.6" in what_of(one("wall-spread", boat))
    assert "2.4" in what_of(one("wall-spread", boat))
    assert ran("wall-spread", boat, 0.4 * (1 + 1e-9)) == ()
    assert len(ran("wall-spread", boat, 0.4 * (1 - 1e-9))) == 1
    even = crate(hull=f"{HULL} -> z_top = 180\n{walls(1.8, 2.0, 2.2)}")
    assert ran("wall-spread", even) == ()


def test_bent_on_the_board() -> None:
    """0, 6, 0 mm: the line of least squares lies at 2 mm, so 4 mm over 1000 mm."""
    boat = shell(board((0, 0), (6, 6), (0, 0)))
    assert bend(boat.boat.regions[0]) == pytest.approx(0.004)
    assert "bent by 4" in what_of(one("shell-bend", boat))
    assert ran("shell-bend", boat, 0.004 * (1 + 1e-9)) == ()
    assert len(ran("shell-bend", boat, 0.004 * (1 - 1e-9))) == 1
    sloping = shell(board((0, 0), (6, 6), (12, 12)))  # the board itself is not level
    assert ran("shell-bend", sloping) == ()


def test_twisted_from_end_to_end() -> None:
    """Edges 200 mm apart, 5 mm one way at the stern, none at the bow: atan(5 / 200) = 1.4°."""
    boat = shell(board((5, 0), (2.5, 0), (0, 0)))
    turn = atan(5 / 200)
    assert f"{degrees(turn):.1f}°" in what_of(one("shell-twist", boat))
    assert ran("shell-twist", boat, turn * (1 + 1e-9)) == ()
    assert len(ran("shell-twist", boat, turn * (1 - 1e-9))) == 1
    assert ran("shell-twist", shell(board((2, 0), (1, 0), (0, 0)))) == ()


@pytest.mark.parametrize(("port", "starboard", "side"), [(102, 98, "port"), (97, 103, "starboard")])
def test_broader_on_one_side(port: float, starboard: float, side: str) -> None:
    halves = f"halves = [{{ x = 500, port = {port}, starboard = {starboard} }}]"
    boat = shell(halves)
    assert f"broader to {side}" in what_of(one("shell-halves", boat))
    off = abs(port - starboard) / 1e3
    assert ran("shell-halves", boat, off * (1 + 1e-9)) == ()
    assert len(ran("shell-halves", boat, off * (1 - 1e-9))) == 1
    true = shell("halves = [{ x = 500, port = 101, starboard = 99.5 }]")
    assert ran("shell-halves", true) == ()
