"""What a change of a hull does not touch is found again, and the hull is as if made anew."""

from itertools import count
from pathlib import Path

import numpy as np
import pytest

from trimdive.boatfile import Boat, load
from trimdive.geometry.lines.mesh import Mesh
from trimdive.geometry.solids.hull import hull

BITTERN = Path(__file__).parents[2] / "boats" / "bittern-as-bought" / "boat.toml"
LINES = "lines.csv"
LOWER, UPPER, LIP, TOWER = range(4)  # her regions
CHANGES: dict[str, tuple[int, dict[str, object], set[int]]] = {  # where, what, whose body is new
    "skin weighed anew": (UPPER, {"mass": 1.9}, {UPPER}),
    "thickness told": (UPPER, {"mass": None, "thickness": 0.0024}, {UPPER}),
    "thickness told and fitted": (UPPER, {"thickness": 0.0024}, set()),
    "balanced anew": (LOWER, {"x": 1.1}, set()),
    "lip deeper in": (LIP, {"inset": 0.004}, {LIP}),
    "lip higher": (LIP, {"below": 0.172}, {LIP}),
    "broader tower": (TOWER, {"breadth": 0.09}, {TOWER}),
    "tower weighed anew": (TOWER, {"mass": 0.44}, {TOWER}),
    "tower with a bottom": (TOWER, {"open_below": False}, {TOWER}),
    "sealed tower": (TOWER, {"sealed": True}, {TOWER}),
}
blank = count(1)


def bittern() -> tuple[Boat, dict[str, bytes]]:
    loaded = load(BITTERN)
    return loaded.boat, {LINES: loaded.beside(LINES).read_bytes()}


def changed(boat: Boat, at: int, what: dict[str, object]) -> Boat:
    regions = list(boat.regions)
    regions[at] = regions[at].model_copy(update=what)
    return boat.model_copy(update={"regions": tuple(regions)})


def unseen(files: dict[str, bytes]) -> dict[str, bytes]:
    """Return her files with a table of lines of which nothing is known yet."""
    return {LINES: files[LINES] + b"\n" * next(blank)}


def is_same(one: Mesh, other: Mesh) -> bool:
    alike = np.array_equal(one.triangles, other.triangles)
    return alike and np.array_equal(one.vertices, other.vertices)


@pytest.mark.parametrize("name", CHANGES)
def test_a_changed_hull_is_as_if_made_anew(name: str) -> None:
    at, what, new = CHANGES[name]
    boat, files = bittern()
    files = unseen(files)
    before = hull(boat, files)
    after = hull(changed(boat, at, what), files)
    anew = hull(changed(boat, at, what), unseen(files))
    assert is_same(after.envelope, anew.envelope)
    for found, wanted in zip(after.skins, anew.skins, strict=True):
        assert found.outer is not wanted.outer
        assert is_same(found.outer, wanted.outer)
        assert is_same(found.body, wanted.body)
        assert (found.thickness, found.volume) == (wanted.thickness, wanted.volume)
        assert (found.shape_volume, found.area) == (wanted.shape_volume, wanted.area)
    was, now = ([skin.body for skin in one.skins] for one in (before, after))
    assert {k for k, (a, b) in enumerate(zip(was, now, strict=True)) if a is not b} == new


def test_a_skin_makes_no_new_outside() -> None:
    boat, files = bittern()
    files = unseen(files)
    before = hull(boat, files)
    after = hull(changed(boat, UPPER, {"mass": 1.9}), files)
    assert after is not before
    assert after.envelope is before.envelope
    assert all(a.outer is b.outer for a, b in zip(before.skins, after.skins, strict=True))


def test_many_changes_leave_what_they_do_not_touch() -> None:
    """More of them than answers are kept."""
    boat, files = bittern()
    files = unseen(files)
    before = hull(boat, files)
    for k in range(20):
        after = hull(changed(boat, UPPER, {"mass": 1.9 + k / 100}), files)
        assert after.skins[LOWER].body is before.skins[LOWER].body
        assert after.envelope is before.envelope
