"""What a change of water asks for, against the whole solver on the changed boat."""

import pytest

from trimdive.assessment import Assessment
from trimdive.ballast.depth import as_lead, change, changes, pull_for
from trimdive.errors import WaterError
from trimdive.findings import Edit
from trimdive.water import water, waters


def test_fresh_to_sea_needs_2_7_per_cent() -> None:
    """Trade rule, common practice, no source: fresh to sea water needs about 2.7 % more mass."""
    assert pull_for(30.0, 999.1, 1026.0) == pytest.approx(0.027 * 30.0, rel=0.01)


def test_lead_for_the_sea(bittern: Assessment, grebe: Assessment) -> None:
    """Worked out apart for the demo boats: 0.71 kg and 0.16 kg, at her centre of gravity."""
    sea = water("sea", 15.0, 35.0)
    for boat, lead in ((bittern, 0.71), (grebe, 0.16)):
        found = change(boat, "sea", sea, (boat.blown_water, boat.full_water))
        assert found.lead == pytest.approx(lead, rel=0.05)
        assert found.place[0] == pytest.approx(boat.masses.gravity[0], abs=1e-9)


def test_with_it_she_floats_and_dives_as_before(bittern: Assessment) -> None:
    sea = water("sea", 15.0, 35.0)
    found = change(bittern, "sea", sea, (bittern.blown_water, bittern.full_water))
    x, _, z = found.place
    piece = (
        ("name", "sea lead"),
        ("mass", found.lead),
        ("known", "worked out"),
        ("x", x),
        ("z", z),
    )
    there = bittern.edited((Edit(action="add", path="lead", fields=piece),))
    there = there.in_water("sea", 15.0, 35.0)
    for mark in bittern.boat.marks:
        before, after = bittern.surfaced.draught(mark.x), there.surfaced.draught(mark.x)
        assert after == pytest.approx(before, abs=0.5e-3)
    assert there.neutral == pytest.approx(bittern.neutral, abs=0.02)


def test_all_named_waters_thinnest_first(grebe: Assessment) -> None:
    found = grebe.changes
    assert len(found) == len(waters())
    densities = [one.water.density for one in found]
    assert densities == sorted(densities)


def test_lead_in_the_wet_counts_less() -> None:
    assert as_lead(0.912, 999.1) == pytest.approx(1.0, rel=1e-3)


def test_a_water_that_there_is_not(grebe: Assessment) -> None:
    with pytest.raises(WaterError, match="there is no water"):
        changes(grebe, (grebe.blown_water, grebe.full_water), ["dead see"])
