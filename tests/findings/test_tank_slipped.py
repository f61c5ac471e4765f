"""The wrong tank slipped: of two, the one that slipped is named, by its place and by its works.

What is right is what the demo boat says: her tanks lie where her own file has them.
"""

import pytest
from tests.said import mend_of, what_of

from trimdive.assessment import Assessment
from trimdive.findings import Edit


def slid(her: Assessment, name: str, by: float, *, is_bare: bool) -> tuple[Assessment, str, float]:
    """Return her with a tank so far forward [m], its path and its right place [m].

    Args:
        her: The boat.
        name: Of the tank.
        by: How far forward [m].
        is_bare: Whether no works bear a tank's name.
    """
    boat = her
    if is_bare:
        boat = boat.edited(
            tuple(
                Edit(action="set", path=f"part[{i}]", fields=(("name", f"thing {i}"),))
                for i, one in enumerate(her.boat.parts, 1)
                if "tank" in one.name
            )
        )
    k, tank = next((k, one) for k, one in enumerate(her.boat.tanks, 1) if one.name == name)
    edit = Edit(action="set", path=f"tank[{k}]", fields=(("x", tank.x + by),))
    return boat.edited((edit,)), f"tank[{k}]", tank.x


@pytest.mark.parametrize("is_bare", [False, True])
@pytest.mark.parametrize("by", [0.08, -0.08, 0.172, -0.172])
@pytest.mark.parametrize("name", ["forward tank", "after tank"])
def test_the_tank_that_slipped_goes_back(
    bittern: Assessment, name: str, by: float, *, is_bare: bool
) -> None:
    boat, path, right = slid(bittern, name, by, is_bare=is_bare)
    found = next(one for one in boat.first_findings if one.key == "tank-offset")
    assert found.subject == name
    assert mend_of(found).startswith(f"Move {name} ")
    moved = {edit.path: dict(edit.fields) for edit in found.edits}
    assert moved[path]["x"] == pytest.approx(right, abs=0.006)
    after = boat.edited(found.edits)
    assert not [one for one in after.first_findings if one.key.startswith("room-")]
    assert all(one.key != "tank-offset" for one in after.first_findings)
    if not is_bare:
        assert set(moved) == {path}  # its works stayed where they were


@pytest.mark.parametrize(
    ("name", "by"),
    [
        ("forward tank", 0.08),
        ("forward tank", -0.08),
        ("after tank", 0.172),
        ("after tank", -0.172),
    ],
)
def test_the_tank_that_slipped_is_named_first(bittern: Assessment, name: str, by: float) -> None:
    """What it pushes into lies where it should: that is told under it."""
    boat, _, _ = slid(bittern, name, by, is_bare=False)
    first = boat.findings[0]
    assert name in what_of(first) + mend_of(first)
    assert "battery" not in mend_of(first)
