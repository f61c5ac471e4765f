"""The demo boats against the figures that were worked out for them before this program was.

Those came from a small independent sum (skins and parts as clouds of small volumes, cut by a
tilted plane; tank water found by level), so they are a check from outside. A proper loft moves
them by some per cent: within a tenth unless a test says why not. Angles hang on differences of
centres and are given their own bands. What each figure is stands beside, held to 1 %.
"""

from math import degrees

import numpy as np
import pytest
from tests.figures import held
from tests.said import mend_of, what_of, words_of

from trimdive.assessment import Assessment
from trimdive.findings import Edit, Finding
from trimdive.geometry.lines.mesh import volume
from trimdive.geometry.solids.cut import cut
from trimdive.geometry.solids.tree import plant
from trimdive.hydrostatics.equilibrium import rest, state

UP = np.array([0.0, 0.0, 1.0])


def part(boat: Assessment, name: str, **fields: object) -> Edit:
    """Return the change of one part by its name."""
    number = next(i for i, one in enumerate(boat.boat.parts, 1) if one.name == name)
    return Edit(action="set", path=f"part[{number}]", fields=tuple(fields.items()))


def key(boat: Assessment, *keys: str) -> Finding:
    """Return the finding of one of these checks that is there."""
    return next(one for one in boat.findings if one.key in keys)


def largest_trim(boat: Assessment) -> tuple[float, float]:
    """Return the largest angle on the way down [°] and its filling."""
    worst = max(boat.dive, key=lambda m: abs(m.state.trim_angle))
    return degrees(worst.state.trim_angle), worst.filling


# ---- Bittern, in order


def test_bittern_masses_and_litres(bittern: Assessment) -> None:
    masses, need = bittern.masses, bittern.need
    assert masses.mass == pytest.approx(23.925, rel=5e-3)
    assert masses.of_kind("lead") == held(3.171, printed=3.200)
    foam = sum(body.volume for body in bittern.bodies if body.kind == "foam")
    assert foam == held(0.004935, printed=4.935e-3)
    assert masses.gravity[0] == pytest.approx(1.154, abs=1e-3)
    assert masses.gravity[2] == pytest.approx(0.0914, abs=1e-3)
    assert need.volume == held(0.002449, printed=2.423e-3)  # ours is 1.1 % more
    assert need.place[0] == pytest.approx(1.239, abs=3e-3)
    assert bittern.floater.tanks.capacities == pytest.approx([1.356e-3] * 2, rel=1e-3)
    assert need.water_place[0] == pytest.approx(1.239, abs=1e-3)
    assert need.filling == held(0.9033, printed=0.89, abs=0.02)
    assert need.mass_above == held(4.119, printed=4.1)
    assert need.mass_above / (1e3 * need.volume) - 1 == held(0.682, printed=0.68)


def test_bittern_floats_and_hangs_as_she_should(bittern: Assessment) -> None:
    """What the project asks of her: waterline, level, BG 12 mm, GM 4 mm at every filling."""
    up = bittern.surfaced
    for x in (0.23, 1.15, 2.07):
        assert up.draught(x) == pytest.approx(0.154, abs=1e-3)
    assert abs(degrees(up.trim_angle)) < 0.1
    assert abs(degrees(up.heel)) < 0.01
    assert bittern.bg >= 0.012
    assert min(moment.state.gm_t for moment in bittern.dive) >= 0.004
    assert abs(degrees(bittern.dived.heel)) < 0.01
    assert bittern.findings == ()


def test_bittern_is_within_half_a_degree_of_level_dived(bittern: Assessment) -> None:
    assert abs(degrees(bittern.dived.trim_angle)) <= 0.5


def test_bittern_stiffness(bittern: Assessment) -> None:
    """GM empty 8.2, least 5.9 at 14 %, BG 12.7 mm.

    Ours are 7.1, 5.4 at 14 % and 12.4. The first is 14 % lower: 0.5 mm of it is G, 91.9 for 91.4
    (less lead, other foam); the rest is the waterplane, and the next test works that out by hand.
    """
    empty = bittern.surfaced.gm_t
    least = min(bittern.dive, key=lambda moment: moment.state.gm_t)
    assert empty == held(0.007088, printed=8.2e-3, rel=0.15)
    assert least.state.gm_t == held(0.005431, printed=5.9e-3)
    assert least.filling == held(0.14, printed=0.14, abs=0.021)
    assert bittern.bg == held(0.01246, printed=12.7e-3)


STATIONS = [  # x, keel, widest at, half-breadth, casing, casing half: mm, as in her table
    (0, 128, 156, 7, 190, 5),
    (115, 92, 146, 34, 192, 20),
    (230, 60, 132, 58, 195, 34),
    (460, 18, 114, 90, 200, 48),
    (690, 3, 106, 105, 203, 57),
    (920, 0, 104, 111, 205, 61),
    (1150, 0, 104, 112, 206, 62),
    (1380, 0, 104, 112, 208, 62),
    (1610, 0, 105, 108, 211, 58),
    (1840, 1, 108, 96, 216, 50),
    (2070, 8, 118, 68, 224, 36),
    (2185, 24, 130, 42, 230, 24),
    (2300, 66, 150, 9, 236, 6),
]


def _half_breadth(z: float) -> np.ndarray:
    """Return half-breadths at the stations by the formula of her sections [mm]."""
    _, keel, widest, b, deck, top = np.array(STATIONS, float).T
    above = top + (b - top) * np.sqrt(np.clip(1 - ((z - widest) / (deck - widest)) ** 2, 0, 1))
    rise = np.clip((widest - z) / (widest - keel), 0, 1)
    return np.where(z > widest, above, b * (1 - rise**2.2) ** (1 / 2.2))


def _edge_moment(outer: float, inner: float) -> float:
    """Return I_T [mm⁴] of a skin between two depths inside the surface at z 154, by hand."""
    x = np.array([row[0] for row in STATIONS], float)
    lean = np.sqrt(1 + ((_half_breadth(155) - _half_breadth(153)) / 2) ** 2)  # cut aslant
    y = [np.clip(_half_breadth(154) - depth * lean, 0, None) for depth in (outer, inner)]
    fine = np.linspace(0, 2300, 2301)
    cubes = [np.interp(fine, x, each) ** 3 for each in y]
    return float(np.trapezoid(2 / 3 * (cubes[0] - cubes[1]), fine))


def test_bittern_waterplane_by_hand(bittern: Assessment) -> None:
    """BM from the table of offsets: skin 3.2, paint 0.22, lip 1.2 mm, and the trunk's two sides.

    The trunk: 180 mm of 2 mm wall each side, 59 mm out. On 23.93 L the sum is 6.8 mm, as ours:
    the 8.2 mm of GM worked out earlier would ask for more waterplane than her skin has.
    """
    trunk = 2 * 180 * 2 * 59**2
    edges = _edge_moment(0, 3.2) + _edge_moment(-0.22, 0) + _edge_moment(3.2, 4.4) + trunk
    by_hand = edges / 23.93e6 * 1e-3
    assert bittern.surfaced.bm_t == pytest.approx(by_hand, rel=0.03)


def test_bittern_on_the_way_down(bittern: Assessment) -> None:
    """5.1° bow down at 82 % with the casing under and the tower not yet.

    Ours is 5.7°, an eighth more: her lead lies 1.6 mm farther forward than in the sum, so that
    she hangs level dived; with so little stiffness left that moment alone makes 0.4°.
    """
    trim, filling = largest_trim(bittern)
    assert trim == held(5.727, printed=5.1, rel=0.15)
    assert filling == held(0.84, printed=0.82, abs=0.021)


def test_bittern_with_the_after_tank_leading(bittern: Assessment) -> None:
    """Leading by 8 % until full (at the neutral filling) it halves the trim: 2.4° were told."""
    boat, top, at, worst = bittern.floater, bittern.neutral, None, 0.0
    names = [tank.name for tank in bittern.boat.tanks]
    assert names == ["forward tank", "after tank"]
    for filling in np.linspace(0.0, top, 61):
        lead = min(filling + 0.08, top) if filling else 0.0
        at = rest(boat, np.array([filling, lead]) * boat.tanks.capacities, start=at)
        worst = max(worst, abs(degrees(state(boat, at).trim_angle)))
    assert worst < 3.0
    assert worst < 0.6 * abs(largest_trim(bittern)[0])


@pytest.mark.parametrize("stuck", [(1.0, 0.0), (0.0, 1.0)])
def test_bittern_with_one_tank_stuck_full(bittern: Assessment, stuck: tuple[float, float]) -> None:
    """The other empty she still has 1.07 L out of the water and trims under 3°, ours 3.02°."""
    boat = bittern.floater
    found = state(boat, rest(boat, np.array(stuck) * boat.tanks.capacities))
    assert found.reserve == held(0.001093, printed=1.07e-3)
    assert abs(degrees(found.trim_angle)) < 3.1


def test_bittern_outside_shape_at_full_size(bittern: Assessment) -> None:
    """About 417 t to the waterline, 564 t for hull and casing whole.

    Those leave the bell well in; ours takes it out, 180 × 120 mm wide: 27 and 36 t at full size.
    """
    tonnes = 20**3 * bittern.water.density / 1e3
    below = cut(plant(bittern.hull.envelope), UP, 0.154).volume
    well = 0.180 * 0.120
    assert (below + well * 0.154) * tonnes == held(406.5, printed=417, rel=0.03)
    whole = sum(volume(skin.outer) for skin in bittern.hull.skins[:2])
    assert (whole + well * 0.207) * tonnes == held(551.5, printed=564, rel=0.03)


@pytest.mark.parametrize(
    ("name", "lead", "ours", "x", "ours_at"),
    [("bittern", 0.71, 0.7033, 1.154, 1.145), ("grebe", 0.16, 0.1485, 0.644, 0.652)],
)
def test_lead_for_the_sea(
    name: str, lead: float, ours: float, x: float, ours_at: float, demo_boats: dict[str, Assessment]
) -> None:
    """35 g/kg at 15 °C: 0.71 kg at 1154 for the one, 0.16 kg at 644 for the other."""
    sea = demo_boats[name].in_water("sea", 15.0, 35.0)
    edits = next(one for one in sea.first_findings if one.key == "waterline-band").edits
    bars = [dict(edit.fields) for edit in edits]
    masses, places = [bar["mass"] for bar in bars], [bar["x"] for bar in bars]
    assert sum(masses) == held(ours, printed=lead)
    assert np.average(places, weights=masses) == held(ours_at, printed=x, abs=0.012)


# ---- Bittern as bought


def test_bittern_as_bought_stays_up(bittern_as_bought: Assessment) -> None:
    """757 cm³ for the closed house, 636 g of pull; tanks full 368 g light, 12° by the bow."""
    boat = bittern_as_bought
    house = next(body for body in boat.bodies if body.name == "winch house")
    assert house.volume == pytest.approx(757e-6, rel=2e-3)
    assert -boat.full.rest.excess == held(0.3666, printed=0.368)
    assert degrees(boat.full.trim_angle) == held(12.41, printed=12)
    assert abs(degrees(boat.surfaced.trim_angle)) < 0.1
    assert boat.need.water_place[0] - 1.239 == held(0.04, printed=0.040, abs=1e-3)


def test_bittern_as_bought_floats_nearly_on_her_marks(bittern_as_bought: Assessment) -> None:
    """Told: level on her marks. Ours: level, 2.1 mm low, within the band of 3 mm.

    She has 29 g more lead than our Bittern and a house 24 g heavier; her mouldings the same.
    """
    assert bittern_as_bought.surfaced.draught(1.15) == held(0.1561, printed=0.154, abs=3e-3)
    assert all(one.key != "waterline-band" for one in bittern_as_bought.findings)


def opened(boat: Assessment) -> Edit:
    return part(boat, "winch house", mass=0.096, hung=0.019)


def lowered(boat: Assessment) -> tuple[Edit, ...]:
    return part(boat, "forward battery", z=0.062), part(boat, "after battery", z=0.062)


def test_house_opened_she_tips_34_degrees(bittern_as_bought: Assessment) -> None:
    after = bittern_as_bought.edited((opened(bittern_as_bought),))
    assert after.full.rest.under
    assert degrees(after.dived.trim_angle) == held(34.84, printed=34)


def test_tank_too_far_forward_alone(bittern_as_bought: Assessment) -> None:
    """Batteries low: 8° until 86 %, then 19° by the bow in the last three per cent."""
    boat = bittern_as_bought.edited((opened(bittern_as_bought), *lowered(bittern_as_bought)))
    by_filling = {round(m.filling, 2): degrees(m.state.trim_angle) for m in boat.dive}
    assert by_filling[0.86] == held(8.185, printed=8)
    assert max(v for f, v in by_filling.items() if f <= 0.86) < 9
    assert degrees(boat.dived.trim_angle) == held(19.05, printed=19)


def test_batteries_on_top_alone(bittern: Assessment) -> None:
    """BG 6.6 for 12.7 mm. From 10 to 22 % she lolls some 15°, so it was told.

    Ours lolls from 6 to 26 % and leans up to 20°: her GM is 1.1 mm lower (see the waterplane by
    hand), and where it is only just negative a millimetre moves both ends and the lean a lot.
    """
    high = part(bittern, "forward battery", z=0.116), part(bittern, "after battery", z=0.116)
    boat = bittern.edited(high)
    assert boat.bg == held(0.006393, printed=6.6e-3)
    lolls = [m.filling for m in boat.dive if abs(degrees(m.state.heel)) > 3]
    assert lolls
    assert min(lolls) == held(0.08, printed=0.10, abs=0.05)
    assert max(lolls) == held(0.26, printed=0.22, abs=0.05)
    assert 12 < max(abs(degrees(m.state.heel)) for m in boat.dive) < 23


def test_all_three_faults_of_bittern_are_named_from_the_start(
    bittern_as_bought: Assessment,
) -> None:
    """House, tank and batteries; each with what is left when it alone is put right."""
    house = key(bittern_as_bought, "void-above")
    tank = key(bittern_as_bought, "tank-offset")
    low = key(bittern_as_bought, "gm-least")
    assert house.subject == "winch house"
    assert tank.subject == "forward tank"
    assert "forward battery" in mend_of(low)
    assert "after battery" in mend_of(low)
    assert not house.follows
    assert not tank.follows
    assert any("tank water" in words_of(what) for what in house.left)
    assert any("upright" in words_of(what) for what in house.left)
    assert any("winch house is closed" in words_of(what) for what in tank.left)
    assert any("winch house is closed" in words_of(what) for what in low.left)
    assert any("bow" in words_of(what) for what in house.hidden)  # only once under does she tip


def test_what_bittern_is_told_to_move(bittern_as_bought: Assessment) -> None:
    """The pair's middle is 40 mm off, so one goes back 80; 84.5 to hang level."""
    moved = {edit.path: dict(edit.fields) for edit in key(bittern_as_bought, "tank-offset").edits}
    number = [t.name for t in bittern_as_bought.boat.tanks].index("forward tank") + 1
    assert 1.600 - moved[f"tank[{number}]"]["x"] == held(0.0845, printed=0.080)


@pytest.mark.parametrize("name", ["bittern-as-bought", "grebe-as-bought"])
def test_mended_in_turn_nothing_is_left(name: str, demo_boats: dict[str, Assessment]) -> None:
    """The worst that can be mended first, and again: four turns at most, then all is in order."""
    boat, turns = demo_boats[name], 0
    while boat.first_findings and turns < 5:
        worst = next(one for one in boat.first_findings if one.edits)
        boat, turns = boat.edited(worst.edits), turns + 1
    assert turns <= 4
    assert [what_of(one) for one in boat.first_findings] == []
    assert abs(degrees(boat.surfaced.trim_angle)) < 0.1


@pytest.mark.parametrize("name", ["bittern-as-bought", "grebe-as-bought"])
def test_every_mend_takes_its_own_finding_away(
    name: str, demo_boats: dict[str, Assessment]
) -> None:
    """Or what is left of it offers no change of its own, since another fault makes it.

    With the forward tank moved back the closed house still draws the middle aft: said, and that
    it goes with the house.
    """
    boat = demo_boats[name]
    mended = [one for one in boat.first_findings if one.edits]
    assert len(mended) >= 3
    for one in mended:
        after = boat.edited(one.edits).first_findings
        left = [other for other in after if other.about == one.about]
        assert not any(other.edits for other in left), what_of(one)
        assert not left or one.key == "tank-offset"


# ---- Grebe, in order and as bought


def test_grebe_masses_and_litres(grebe: Assessment) -> None:
    masses, need = grebe.masses, grebe.need
    assert masses.mass == pytest.approx(5.540, rel=5e-3)
    assert masses.of_kind("lead") == held(1, printed=1.0)
    foam = sum(body.volume for body in grebe.bodies if body.kind == "foam")
    assert foam == held(0.000862, printed=862e-6)
    assert masses.gravity[0] == pytest.approx(0.644, abs=1e-3)
    assert masses.gravity[2] == held(0.05404, printed=0.0533, abs=1e-3)
    assert need.volume == held(0.0005545, printed=551e-6)
    assert need.place[0] == pytest.approx(0.706, abs=2e-3)
    assert need.fitted == held(0.0006088, printed=609e-6)
    assert need.water_place[0] == pytest.approx(0.707, abs=1e-3)
    assert need.filling == held(0.9109, printed=0.90, abs=0.02)
    assert need.mass_above == held(0.8772, printed=0.88)
    assert need.mass_above / (1e3 * need.volume) - 1 == held(0.5819, printed=0.59)


def test_grebe_floats_and_hangs(grebe: Assessment) -> None:
    """GM 5.7 empty and least, BG 9.4 mm, 5° at 84 %. Ours is least at 16 %, by a tenth of a mm."""
    up = grebe.surfaced
    assert up.draught(0.65) == pytest.approx(0.098, abs=1e-3)
    assert up.gm_t == held(0.005291, printed=5.7e-3)
    assert min(moment.state.gm_t for moment in grebe.dive) == held(0.00516, printed=5.7e-3)
    assert grebe.bg == held(0.008753, printed=9.4e-3)
    trim, filling = largest_trim(grebe)
    assert trim == held(4.718, printed=5)
    assert filling == held(0.84, printed=0.84, abs=0.021)
    assert abs(degrees(grebe.dived.trim_angle)) < 2
    assert grebe.findings == ()


def test_grebe_outside_shape_at_full_size(grebe: Assessment) -> None:
    """About 202 t to the waterline, 268 t for hull and casing whole."""
    tonnes = 28**3 * grebe.water.density / 1e3
    assert cut(plant(grebe.hull.envelope), UP, 0.098).volume * tonnes == held(196.2, printed=202)
    assert sum(volume(skin.outer) for skin in grebe.hull.skins[:2]) * tonnes == held(
        261.4, printed=268
    )


def test_grebe_with_the_light_battery_alone(grebe: Assessment) -> None:
    """310 g at 790 for 520 at 812: 4 mm high amidships, bow 8, stern 1; tank full 152 g light.

    Ours: 4.5, bow 9.0, stern 0.1 mm low, and 156 g. Foam lies to 96 mm, 2 mm under the water, and
    comes out as she rises: the stiffness trebles on the way, so the ends follow its exact edges;
    0.7 mm of theirs is the 0.05° by which our Grebe already trims. The mend is 230 g of lead; by
    moments at x = (520 × 812 - 310 × 790) / 210 = 844.
    """
    names = [one.name for one in grebe.boat.parts]
    battery = next(name for name in names if "battery" in name)
    boat = grebe.edited((part(grebe, battery, mass=0.310, x=0.790),))
    off = [0.098 - boat.surfaced.draught(x) for x in (0.0, 0.65, 1.3)]
    ours = [-0.06e-3, 4.48e-3, 9.03e-3]
    assert ours == pytest.approx([1e-3, 4e-3, 8e-3], abs=1.6e-3)
    assert off == pytest.approx(ours, abs=0.09e-3)  # 1 % of the largest
    assert -boat.full.rest.excess == held(0.1559, printed=0.152)
    added = dict(next(o for o in boat.first_findings if o.key == "waterline-band").edits[0].fields)
    assert added["mass"] == held(0.2101, printed=0.230)
    assert added["x"] == pytest.approx((520 * 0.812 - 310 * 0.790) / 210, abs=0.012)


def test_grebe_with_the_matchbox_alone(grebe: Assessment) -> None:
    """Level on top, 12° by the bow dived, tank needed to 94 %, no margin left."""
    fields = {"name": "matchbox", "volume": 25e-6, "x": 0.160, "z": 0.108, "density": 35.0}
    boat = grebe.edited((Edit(action="add", path="foam", fields=tuple(fields.items())),))
    assert abs(degrees(boat.surfaced.trim_angle)) < 0.5
    assert degrees(boat.dived.trim_angle) == held(11.55, printed=12)
    assert boat.need.filling == held(0.9465, printed=0.94, abs=0.02)
    assert boat.need.margin < 0.08
    assert any(one.key == "foam-above" for one in boat.first_findings)


def test_all_three_faults_of_grebe_are_named_from_the_start(grebe_as_bought: Assessment) -> None:
    slip = key(grebe_as_bought, "lines-doubt")
    matchbox = key(grebe_as_bought, "foam-above")
    light = key(grebe_as_bought, "waterline-band")
    assert "station 650, height 60 mm: 5.98 lies 53 mm inside its neighbours; 59.8?" in what_of(
        slip
    )
    assert "matchbox" in matchbox.subject
    assert "moving lead cannot fix" in mend_of(matchbox)
    assert "high amidships" in what_of(light)
    assert not slip.follows
    assert not matchbox.follows
    assert not light.follows
    assert any("high amidships" in words_of(what) for what in matchbox.left)
    assert any("matchbox" in words_of(what) for what in light.left)
    assert any("5.98" in words_of(what) for what in light.left)
    assert any("matchbox" in words_of(what) for what in slip.left)


def test_what_the_slip_makes_goes_with_it(grebe_as_bought: Assessment) -> None:
    """The dent leaves foam standing out of the hull: said to follow from the slipped figure."""
    out = [one for one in grebe_as_bought.findings if one.key == "outside-slack"]
    assert out
    assert all(any("lines.csv" in subject for _, subject in one.follows) for one in out)
