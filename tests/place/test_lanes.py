"""What slides: levers by hand, walls of its cylinder, and nothing passes through anything."""

from math import pi, sqrt, tan

import numpy as np
import pytest
from tests.place.aims import NO_FOAM
from tests.rest.crate import crate

from trimdive.assessment import Assessment
from trimdive.boatfile.placing import Placing
from trimdive.edits.placing import Placement, place
from trimdive.edits.task import lying, task
from trimdive.errors import BoatError
from trimdive.geometry.clashes.found import homeless
from trimdive.geometry.clashes.scene import placed_at
from trimdive.placing.solve import contained, passes, programme, slides
from trimdive.placing.solve.solve import answer

KEEP = Placing(lead="keep", foam="keep", aims=("moves", "pieces"))
NO_LEAD = NO_FOAM.replace('"no foam"', '"no lead"').replace('"foam"', '"lead"')


def lane(*things: str, **limits: float) -> str:
    """Return a lane as the boat file has it [mm]."""
    named = ", ".join(f'"{name}"' for name in things)
    rows = "\n".join(f"{key} = {value}" for key, value in limits.items())
    return f"[[lane]]\nthings = [{named}]\n{rows}\n"


def spoilt(more: str) -> Assessment:
    """Return the crate with its fore works 30 mm too far forward, and no lead or foam to add."""
    return crate(more + NO_FOAM + NO_LEAD, works="x = 620 -> x = 650")


def test_a_slide_by_the_lever() -> None:
    """1467.35 g lie 30 mm too far forward: by 30 mm less what the band dived leaves."""
    her = spoilt(lane("fore works", x_aft=500, x_fore=790))
    found = place(her, KEEP)
    assert isinstance(found, Placement)
    (moved,) = found.things
    stiff = her.dived.displacement_mass * (her.bg - her.dived.free_surface_l)
    far = 0.030 - stiff * tan(pi / 180) / 1.46735
    assert float((moved.was - moved.place)[0]) == pytest.approx(far, rel=0.02)
    assert found.left == ()


def test_a_lane_ends_where_its_limits_are() -> None:
    """The works, 100 mm long at x 650, may not pass 595 with their after end: 5 mm at the most."""
    her = spoilt(lane("fore works", x_aft=595, x_fore=790))
    (way,) = slides(lying(her))
    assert (way.low, way.high) == pytest.approx((-0.005, 0.090))
    assert answer(programme(task(her, KEEP)), KEEP.aims, 5.0) is None


def test_what_a_slide_adds() -> None:
    """Moved with its water, a tank shifts its own mass and what is in it, blown and dived."""
    her = lying(crate(lane("tank", x_aft=300, x_fore=700)))
    (way,) = slides(her)
    from trimdive.placing.solve.sums import DIVED, MASS, neutral_water

    assert way.each[MASS] == pytest.approx([0, 0, 0, 0])
    assert way.each[DIVED] == pytest.approx([0, neutral_water(her), 0, 0])


def test_walls_of_a_round_cylinder_by_hand() -> None:
    """Works 60 broad and 40 high at z 40 in a bore of 114 with its axis at 60.

    Corners may go to √(57² - 30²) mm from the axis: down from 20 to 11.53 mm with their underside.
    """
    her = lying(crate(lane("fore works", z_bottom=0, z_top=120)))
    limits = {axis: (low, high) for _, axis, low, high in contained(her)}
    half = sqrt(0.057**2 - 0.030**2)
    assert limits[2] == pytest.approx((0.060 - half - 0.020, 0.060 + half - 0.060), abs=1e-4)
    assert limits[0] == pytest.approx((0.200 - 0.570, 0.800 - 0.670))


def test_at_the_end_of_its_lane_a_thing_lies_where_check_allows_it() -> None:
    """Slid as far as the lane lets it go, down and fore, it shares no room with wall or cap."""
    her = crate(lane("fore works", z_bottom=0, z_top=120))
    limits = {axis: (low, high) for _, axis, low, high in contained(lying(her))}
    path = next(
        f"part[{k}]" for k, part in enumerate(her.boat.parts, 1) if part.name == "fore works"
    )
    solids = her.scene.by_path[path]
    down, up = limits[2]
    for shift in ((0.0, 0.0, down), (0.0, 0.0, up), (limits[0][1], 0.0, 0.0)):
        there = placed_at(solids, shift)
        assert homeless(there[0], her.scene.aboard.bores[0], 1e-6) is None
        assert homeless(placed_at(solids, tuple(1.05 * far for far in shift))[0],  # pyright: ignore
                        her.scene.aboard.bores[0], 1e-6)  # fmt: skip


def test_one_thing_does_not_pass_through_another() -> None:
    """Works from 600 to 700 must go aft; a block from 540 to 590 stops them after 10 mm.

    10 mm are too little; without the block the same lane does.
    """
    block = '[[part]]\nname = "block"\nmass = 1\nknown = "weighed"\nx = 565\nz = 40\n'
    block += 'inside = "cylinder"\nshape = "box"\nlength = 50\nbreadth = 40\nheight = 40\n'
    free = lane("fore works", x_aft=500, x_fore=790)
    her = spoilt(block + free)
    (gap,) = (
        float(one.gaps[0].max())
        for one in passes(lying(her))
        if {one.first, one.second} == {-1, 0} and one.gaps[0].max() < 0.05
    )
    assert gap == pytest.approx(0.010)
    assert answer(programme(task(her, KEEP)), KEEP.aims, 5.0) is None
    assert isinstance(place(spoilt(free), KEEP), Placement)


def test_it_may_pass_over_where_it_may_go_up() -> None:
    """A flat block, from 20 to 24 mm, under the works: 4 mm up they may go aft over it."""
    block = '[[part]]\nname = "block"\nmass = 1\nknown = "weighed"\nx = 565\nz = 22\n'
    block += 'inside = "cylinder"\nshape = "box"\nlength = 50\nbreadth = 20\nheight = 4\n'
    her = spoilt(block + lane("fore works", x_aft=500, x_fore=790, z_bottom=20, z_top=110))
    wish = KEEP.model_copy(update={"trim_dived": 0.2 * pi / 180})
    it = programme(task(her, wish))
    found = answer(it, ("moves",), 5.0)
    assert found is not None
    far = {
        way.axis: float(found.x[it.where[f"up {k}"]] - found.x[it.where[f"down {k}"]])
        for k, way in enumerate(it.task.ways)
    }
    assert far[0] < -0.015
    assert far[2] == pytest.approx(0.004 - 0.001, abs=1e-6)  # less what counts as touching


@pytest.mark.parametrize(
    ("text", "what"),
    [
        (lane("fore work", x_aft=500, x_fore=790), "there is no part 'fore work'"),
        (lane("fore works"), "it lets nothing slide"),
        (lane("fore works", x_aft=790, x_fore=500), "after end lies forward"),
        (
            lane("fore works", x_aft=500, x_fore=790) + lane("fore works", z_bottom=0, z_top=90),
            "slides in lane[1] already",
        ),
    ],
)
def test_lanes_that_cannot_be(text: str, what: str) -> None:
    with pytest.raises(BoatError) as error:
        crate(text)
    assert what in str(error.value)


def test_a_boat_without_lanes_has_nothing_that_slides() -> None:
    her = lying(crate())
    assert slides(her) == []
    assert contained(her) == []
    assert np.isfinite([one.gaps for one in passes(her)]).all()
