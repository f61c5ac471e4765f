"""What combinations want, against Archimedes by hand, and verified by the full solver."""

from dataclasses import replace

import pytest
from tests.cli.boats import SMALL, demo

from trimdive.assessment import Assessment
from trimdive.boatfile import parse
from trimdive.placing.kit import Combination, Kit, Space, is_near, kit, needs, pockets
from trimdive.placing.kit.laying import Piece, put_in, shaped
from trimdive.placing.kit.work import ANY
from trimdive.text.kit_asked import made as made_for
from trimdive.text.kit_text import kit_text
from trimdive.water import waters


@pytest.fixture(scope="module")
def small() -> Assessment:
    return Assessment(boat=parse(SMALL), files={})


def other(
    her: Assessment, name: str, gear: str = "", like: Assessment | None = None
) -> Combination:
    water = waters()[name]
    there = (like or her).in_water(water.kind, water.celsius, water.salt)
    return Combination(water_name=name, water=there.water, gear=gear, her=there)


def with_battery(her: Assessment, grams: float) -> Assessment:
    parts = tuple(
        part.model_copy(update={"mass": grams / 1e3}) if part.name == "battery" else part
        for part in her.boat.parts
    )
    return replace(her, boat=her.boat.model_copy(update={"parts": parts}))


def test_other_water_wants_a_share_of_her_mass(small: Assessment) -> None:
    """Archimedes: (ρ'/ρ - 1) M at her centre of gravity without tank water."""
    sea = other(small, "sea")
    pulls, moments = needs(small, [sea], about=0.1)
    share = sea.water.density / small.water.density - 1
    x = float(small.floater.gravity[0] + small.floater.tree.centre[0])
    assert pulls[0] == pytest.approx(share * small.floater.mass)
    assert moments[0] == pytest.approx(share * small.floater.mass * (x - 0.1))


def test_a_lighter_battery_in_the_dry_wants_its_difference(small: Assessment) -> None:
    """100 g less at x = 300 mm, inside the cylinder: 100 g to add there."""
    light = other(small, "pond", "light battery", with_battery(small, 300.0))
    pulls, moments = needs(small, [light], about=0.1)
    assert pulls[0] == pytest.approx(0.100)
    assert moments[0] == pytest.approx(0.100 * (0.300 - 0.1))


@pytest.fixture(scope="module")
def made(small: Assessment) -> Kit:
    space = Space(
        hull=small.hull, bodies=small.bodies, waterline=small.waterline, scene=small.scene
    )
    middle = float(small.floater.gravity[0] + small.floater.tree.centre[0])
    places = pockets(space, middle, {})
    light = with_battery(small, 340.0)
    planned = [
        other(small, "pond"),
        other(small, "cold pond"),
        other(small, "sea"),
        other(small, "pond", "light", light),
        other(small, "sea", "light", light),
    ]
    return kit(small, planned, places, 20.0)


def test_every_combination_is_put_right_by_the_full_solver(made: Kit) -> None:
    assert made.proven
    assert len(made.pieces) > 0
    for row in made.rows:
        assert is_near(made, row.left)
        assert abs(row.left.sinks) < 3e-3
    sea = made.rows[2]
    assert not is_near(made, sea.bare)
    assert sea.bare.excess == pytest.approx(-sea.pull, abs=1e-6)


def test_the_trimmed_water_needs_nothing(made: Kit) -> None:
    assert made.rows[0].lies == {}
    assert made.rows[0].left.excess == pytest.approx(0.0, abs=1e-9)


def test_pockets_lie_in_order_and_where_they_should(made: Kit, small: Assessment) -> None:
    fore, middle, aft = made.pockets
    assert fore.x > middle.x > aft.x
    x = float(small.floater.gravity[0] + small.floater.tree.centre[0])
    assert middle.x == pytest.approx(x, abs=0.1 * 0.6)
    for one in made.pockets:
        assert 0.002 < one.lead_z < 0.08
        assert one.foam_z < 0.080  # her waterline


def test_a_piece_put_in_pulls_what_it_should(small: Assessment, made: Kit) -> None:
    """100 g of lead of 11.34 pull 91.2 g in fresh water; 100 ml of foam of 33 lift 96.6 g."""
    lead = Piece(label="L1", kind="lead", mass=0.1, volume=0.1 / 11340, size=(0.0294, 0.03, 0.01))
    foam = Piece(label="F1", kind="foam", mass=3.3e-3, volume=1e-4, size=(0.0707, 0.0707, 0.02))

    def pull(her: Assessment) -> float:
        return her.floater.mass - her.water.density * her.floater.volume

    for piece, gives in ((lead, 0.0912), (foam, -0.0966)):
        changed = replace(small, boat=put_in(small.boat, made.pockets[1], piece))
        assert pull(changed) - pull(small) == pytest.approx(gives, abs=1e-4)


def test_demo_boats_have_pockets(demo_boats: dict[str, Assessment]) -> None:
    for her in demo_boats.values():
        space = Space(hull=her.hull, bodies=her.bodies, waterline=her.waterline, scene=her.scene)
        middle = float(her.floater.gravity[0] + her.floater.tree.centre[0])
        found = pockets(space, middle, {})
        assert [one.name for one in found] == ["fore", "amidships", "aft"]
        assert any(one.lead_is_free for one in found)


@pytest.mark.parametrize("name", ["bittern", "grebe", "plover"])
def test_what_a_kit_proposes_is_what_check_allows(name: str) -> None:
    """The boat with each set of pieces in: ``check``'s own search finds them in nothing else."""
    her = demo(name)
    found = made_for(her, "bath, sea, pond", (), (), {}, 5.0)
    crowded = " ".join(found.crowded)
    for row in found.rows:
        boat = row.combination.her.boat
        for pocket in found.pockets:
            there = [one for one in found.pieces if one.label in row.lies.get(pocket.name, ())]
            boat = put_in(boat, pocket, *there)
        after = Assessment(boat=boat, files=her.files).scene
        shared = {one.one.name for one in after.clashes() if one.one.name.startswith("kit")}
        shared |= {one.name for one in after.clashes() if one.name.startswith("kit")}
        assert {label.removeprefix("kit ") for label in shared} <= set(crowded.split()), row.lies
        total = sum(one.mass for one in found.pieces if one.label in str(row.lies))
        assert sum(one.mass or 0.0 for one in (*boat.lead, *boat.foam)) - sum(
            one.mass or 0.0 for one in (*her.boat.lead, *her.boat.foam)
        ) == pytest.approx(total, abs=1e-9)


def test_pieces_in_one_pocket_do_not_lie_in_each_other(small: Assessment, made: Kit) -> None:
    lead = [Piece(label=f"L{k}", kind="lead", mass=0.1, volume=1e-5, size=ANY) for k in (1, 2)]
    both = shaped(small.scene, lead, [[(made.pockets[0], ("L1", "L2"))]])[0]
    boat = put_in(small.boat, made.pockets[0], *both)
    low, high = boat.lead[-2:]
    assert high.z - high.height / 2 >= low.z + low.height / 2
    assert [one.size[0] * one.size[1] * one.size[2] for one in both] == pytest.approx([1e-5, 1e-5])


def test_a_piece_that_has_no_room_is_said(small: Assessment, made: Kit) -> None:
    huge = Piece(label="F1", kind="foam", mass=0.03, volume=1e-3, size=ANY)
    _, crowded = shaped(small.scene, [huge], [[(made.pockets[0], ("F1",))]])
    assert crowded == ("F1 fore",)


def test_a_piece_without_clear_room_is_marked_where_the_table_lays_it(
    small: Assessment, made: Kit
) -> None:
    first = made.rows[0]
    lies = {"fore": ("L1", "F1"), "amidships": ("L1",), "aft": ()}
    tight = replace(made, rows=(replace(first, lies=lies),), crowded=("L1 fore",))
    answer = [str(block) for block in kit_text(small, tight)]
    where = next(k for k, block in enumerate(answer) if "lacks" in block)
    assert "'L1* F1', 'L1', '–'" in answer[where]
    assert "* No clear room was found for L1 fore" in answer[where + 1]
    roomy = " ".join(str(block) for block in kit_text(small, replace(tight, crowded=())))
    assert "*" not in roomy
