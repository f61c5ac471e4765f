"""What shares room is named first, by how much, and the mend takes it away.

Volumes by hand: spans of boxes and circles, from the boat files' own figures.
"""

from math import pi

import pytest
from tests.findings.checks import assert_mended, ran
from tests.rest.crate import crate
from tests.said import mend_of, what_of

from trimdive.assessment import Assessment
from trimdive.edits.work import work
from trimdive.findings import ROOM_KEYS, Edit, Finding
from trimdive.text.say import Say


def changed(boat: Assessment, kind: str, name: str, **fields: object) -> Assessment:
    """Return a boat with the fields of one thing changed, found by its name."""
    lists = {"tank": boat.boat.tanks, "part": boat.boat.parts, "lead": boat.boat.lead}
    lists["foam"] = boat.boat.foam
    number = next(i for i, one in enumerate(lists[kind], 1) if one.name == name)
    edit = Edit(action="set", path=f"{kind}[{number}]", fields=tuple(fields.items()))
    return boat.edited((edit,))


def first(boat: Assessment, key: str) -> Finding:
    """Return the worst finding, which is this one."""
    found = boat.findings[0]
    assert found.key == key, [what_of(one) for one in boat.findings]
    return found


def test_lead_without_a_shape_in_a_cylinder_is_told_all_the_same(grebe: Assessment) -> None:
    """200 g of lead are 17.6 cm³ (11.34 g/cm³); the middle of it lies in the tube."""
    new = {"name": "odd lead", "mass": 0.2, "known": "weighed", "x": 0.56, "z": 0.052}
    boat = grebe.edited((Edit(action="add", path="lead", fields=tuple(new.items())),))
    found = first(boat, "room-wet")
    assert what_of(found, Say(boat.boat)).startswith(
        "odd lead and cylinder share 18 cm³ of room 560 mm"
    )
    assert_mended(found, boat)


def test_stray_lead_stops_no_other_thing_from_lying_where_it_has_room(grebe: Assessment) -> None:
    new = {"name": "odd lead", "mass": 0.2, "known": "weighed", "x": 0.56, "z": 0.052}
    boat = grebe.edited((Edit(action="add", path="lead", fields=tuple(new.items())),))
    paths = [path for path in grebe.scene.by_path if path.startswith(("lead", "foam", "part"))]
    free = [path for path in paths if grebe.scene.is_clear(grebe.scene.by_path[path])]
    assert len(free) > 5
    assert all(boat.scene.is_clear(boat.scene.by_path[path]) for path in free)
    stray = f"lead[{len(boat.boat.lead)}]"
    assert not boat.scene.is_clear(boat.scene.by_path[stray])


def test_good_boats_share_no_room(
    bittern: Assessment, grebe: Assessment, plover: Assessment
) -> None:
    for boat in (bittern, grebe, plover):
        assert boat.scene.clashes() == ()


def test_bought_boats_share_no_room_but_where_a_slip_dents_the_hull(
    bittern_as_bought: Assessment, grebe_as_bought: Assessment, plover_as_bought: Assessment
) -> None:
    for boat in (bittern_as_bought, plover_as_bought):
        assert not [what_of(one) for one in boat.first_findings if one.key in ROOM_KEYS]
    dent = [one for one in grebe_as_bought.findings if one.key in ROOM_KEYS]
    assert {one.key for one in dent} <= {"room-skin"}
    assert all(any(key == "lines-doubt" for key, _ in one.follows) for one in dent)


def test_two_tanks_laid_into_each_other(bittern: Assessment) -> None:
    """Both 130 long in one bore of 117.6, 78 mm apart: 52 mm of it, 565 cm³."""
    boat = changed(bittern, "tank", "forward tank", inside="after cylinder", x=0.880)
    found = first(boat, "room-tanks")
    (clash,) = [one for one in boat.scene.clashes() if one.sort == "tanks"]
    assert clash.volume == pytest.approx(pi / 4 * 0.1176**2 * 0.052, rel=1e-6)
    assert f"{clash.volume * 1e6:.0f} cm³" in what_of(found, Say(boat.boat))
    assert_mended(found, boat)


def test_the_tank_that_slipped_is_moved_alone_and_no_lead_is_cut(plover: Assessment) -> None:
    """Her tank in two halves, 28.5 long each; the after one typed 415 for 394.75 from the stern.

    The forward one and their works lie where they lay: with the slip undone she is in order.
    """
    tank = plover.boat.tanks[0]
    half = {"length": 0.0285}
    forward = tank.model_copy(update={"name": "forward tank", "x": 0.42325, **half})
    after = tank.model_copy(update={"name": "after tank", "x": 0.415, **half})
    plants = tuple(
        one.model_copy(update={"tanks": ("after tank", "forward tank")})
        for one in plover.boat.plants
    )
    boat = plover.boat.model_copy(update={"tanks": (after, forward), "plants": plants})
    her = Assessment(boat=boat, files=plover.files)
    assert {edit.path for edit in first(her, "room-tanks").edits} == {"tank[1]"}
    done = work(her, her.boat.placing, 20.0)
    assert done.found is not None
    assert done.found.things == ()
    assert done.found.left == ()
    assert done.found.after.boat.tanks[0].x == pytest.approx(0.39475, abs=0.002)
    assert done.found.after.boat.parts == her.boat.parts


@pytest.mark.parametrize("x", [0.423, 0.44])
def test_tanks_are_laid_as_their_works(plover: Assessment, x: float) -> None:
    """The after tank typed upon the forward one, or beyond it: it is the one that goes aft."""
    tank = plover.boat.tanks[0].model_copy(update={"length": 0.0285})
    forward = tank.model_copy(update={"name": "forward tank", "x": 0.42325})
    after = tank.model_copy(update={"name": "after tank", "x": x})
    parts = plover.boat.parts
    fore = parts[0].model_copy(update={"works_of": "forward tank", "mass": 0.02, "x": 0.425})
    aft = fore.model_copy(update={"name": "vent", "works_of": "after tank", "x": 0.393})
    changed = {"tanks": (forward, after), "plants": (), "parts": (fore, *parts[1:], aft)}
    boat = plover.boat.model_copy(update=changed)
    edits = first(Assessment(boat=boat, files=plover.files), "room-tanks").edits
    assert [(edit.path, dict(edit.fields)["x"] < 0.4) for edit in edits] == [("tank[2]", True)]


def test_the_tank_off_its_works_is_moved_and_not_the_other(bittern: Assessment) -> None:
    """172 mm aft of its place: the right one would leave its cylinder to make up for it."""
    boat = changed(bittern, "tank", "forward tank", x=1.348)
    (found,) = ran("tank-offset", boat)
    assert found.subject == "forward tank"
    after = assert_mended(found, boat)
    assert after.boat.tanks[0].x == pytest.approx(1.520, abs=0.006)


def test_battery_outside_its_cylinder(bittern: Assessment) -> None:
    """300 mm from the stern, 200 long; the bore begins at 1291: 1091 mm of its end outside it."""
    boat = changed(bittern, "part", "forward battery", x=0.300)
    found = first(boat, "room-home")
    assert "1091 mm outside" in what_of(found)
    after = assert_mended(found, boat)
    battery = next(one for one in after.boat.parts if one.name == "forward battery")
    assert 1.291 + 0.1 <= battery.x <= 1.879 - 0.1


def test_battery_into_the_piston_tank(grebe: Assessment) -> None:
    """From 705 to 766 in the tank, 46 × 24 mm, but for corners out of the bore of 78: 67 cm³."""
    boat = changed(grebe, "part", "battery", x=0.750)
    found = first(boat, "room-inside")
    clash = next(one for one in boat.scene.clashes() if one.sort == "inside")
    assert clash.volume == pytest.approx(0.061 * 0.046 * 0.024, rel=0.02)
    assert_mended(found, boat)


def test_lead_in_the_cylinder(grebe: Assessment) -> None:
    lead = grebe.boat.lead[3]
    boat = changed(grebe, "lead", lead.name, z=0.015)
    found = first(boat, "room-wet")
    assert "cylinder" in what_of(found)
    assert "down" in mend_of(found)
    assert_mended(found, boat)


def test_foam_in_foam(bittern: Assessment) -> None:
    """Foam 3 from 783.5 to 976.5, foam 4 from 842 on: 134.5 mm of 29.4 × 53.5 mm, both sides."""
    boat = changed(bittern, "foam", "foam 3", x=0.880)
    found = first(boat, "room-wet")
    clash = next(one for one in boat.scene.clashes() if one.sort == "wet")
    assert clash.volume == pytest.approx(2 * 0.1345 * 0.0294 * 0.0535, rel=5e-3)
    assert_mended(found, boat)


def test_battery_entered_outside_though_it_lies_inside(plover: Assessment) -> None:
    boat = changed(plover, "part", "battery", inside=None)
    found = next(one for one in boat.first_findings if one.key == "room-wet")
    assert "lies inside cylinder" in mend_of(found)
    assert_mended(found, boat)


def test_reaches_into_a_cap(plover: Assessment) -> None:
    """Bore from 214 to 532; the bottle 70 long at 500 ends at 535: 3 mm in the cap."""
    boat = changed(plover, "part", "gas bottle with valve", x=0.500)
    (found,) = ran("room-bore", boat)
    assert "3.0 mm out of the room inside cylinder" in what_of(found)
    assert ran("room-bore", boat, 0.003 + 1e-6) == ()
    assert len(ran("room-bore", boat, 0.003 - 1e-6)) == 1
    assert_mended(found, boat)


def test_no_mend_lays_things_into_each_other(grebe: Assessment) -> None:
    """All the lead moved forward to level her would lay the block behind the cylinder into it."""
    boat = changed(grebe, "part", "battery", x=0.775, mass=0.300)
    for found in boat.first_findings:
        if found.edits:
            after = boat.edited(found.edits)
            assert len(after.scene.clashes()) <= len(boat.scene.clashes()), what_of(found)


TWO = """length = 36
x = 500

[[tank]]
name = "second tank"
inside = "cylinder"
length = 36
x = 540"""


def test_a_tank_is_not_moved_into_its_neighbour() -> None:
    """Two of 36 mm at 500 and 540, wanted at a mean of 500: one 40 mm aft.

    The fore one would lie where the after one is, and hold its water again; so the after one goes.
    """
    boat = crate(tank=f"length = 72\nx = 500\n -> {TWO}\n")
    (found,) = ran("tank-offset", boat)
    assert found.subject == "tank"
    after = boat.edited(found.edits)
    assert [clash for clash in after.scene.clashes() if clash.sort == "tanks"] == []
    assert after.boat.tanks[0].x == pytest.approx(0.460, abs=1e-6)


def test_where_no_tank_has_room_none_is_moved() -> None:
    """Works told on both sides leave the tank no room to go back 20 mm."""
    boat = crate(
        tank="length = 72\nx = 500\n -> length = 72\nx = 520\n",
        works="x = 380\nz = 40 -> x = 434\nz = 40",
    )
    (found,) = ran("tank-offset", boat)
    assert found.edits == ()
    assert "no room" in mend_of(found)


def test_what_passes_through_the_hull_may_pass_a_cap_but_not_the_tube(grebe: Assessment) -> None:
    """A solid post of 10 mm across Grebe's tube, between its caps, then a shaft through its cap."""
    post = {
        "name": "post",
        "mass": 0.05,
        "known": "weighed",
        "x": 0.56,
        "z": 0.0525,
        "shape": "box",
    }
    sizes = {"length": 0.01, "breadth": 0.01, "height": 0.12, "through_hull": True}
    boat = grebe.edited((Edit(action="add", path="part", fields=tuple((post | sizes).items())),))
    clashes = {(one.one.name, one.name) for one in boat.scene.clashes()}
    assert any("post" in pair for pair in clashes), clashes
    vessel = grebe.boat.cylinders[0]
    shaft = sizes | {"x": vessel.x - vessel.length / 2, "length": 0.1, "height": 0.01}
    boat = grebe.edited((Edit(action="add", path="part", fields=tuple((post | shaft).items())),))
    assert not any("post" in (one.one.name, one.name) for one in boat.scene.clashes())


def test_tanks_follow_a_cylinder_that_is_changed_for_a_trial(bittern: Assessment) -> None:
    """As they do in the file, where what is left out comes from the cylinder."""
    vessel = bittern.boat.cylinders[0]
    fields = (("z", vessel.z + 0.01), ("outside", vessel.outside - 0.002))
    boat = bittern.edited((Edit(action="set", path="cylinder[1]", fields=fields),)).boat
    now, before = boat.tanks[0], bittern.boat.tanks[0]
    assert now.z == pytest.approx(before.z + 0.01)
    assert now.bore == pytest.approx(before.bore - 0.002)
    assert boat.tanks[1] == bittern.boat.tanks[1]
