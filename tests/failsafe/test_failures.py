"""Where she ends up when something fails, against what is known of her from elsewhere."""

from math import degrees

import numpy as np
import pytest

from trimdive.assessment import Assessment
from trimdive.boatfile.plant import KINDS, Failsafe
from trimdive.hydrostatics.equilibrium import rest, state
from trimdive.plant.failsafe import (
    FAILURES,
    STARTS,
    FailureTable,
    answers,
    compare,
    depth_meant,
    failures,
)
from trimdive.text.bench_text import bench_text
from trimdive.text.layout import Words
from trimdive.text.plant_figures import label, shown
from trimdive.text.said import said
from trimdive.text.say import Say


def table(her: Assessment) -> FailureTable:
    found = failures(her)
    assert found is not None
    return found


@pytest.mark.parametrize("name", ["bittern", "grebe", "plover"])
def test_every_square_of_a_good_boat_is_filled(name: str, request: pytest.FixtureRequest) -> None:
    found = table(request.getfixturevalue(name))
    assert len(found.squares) == len(FAILURES) * len(STARTS)
    assert found.empty == ()
    hovering = [(one.failure, one.start) for one in found.squares if one.ends != "on top"]
    assert hovering == ([("servo stuck", "dived")] if name == "plover" else [])


def test_less_lift_than_a_scale_can_tell_is_none(plover: Assessment) -> None:
    """One valve blows her; stuck, she has 0.3 g of lift: a scale of 5 kg shows whole grams."""
    square = table(plover).at("servo stuck", "dived")
    assert square.ends == "hovering"
    assert abs(square.grams) < 5e-4
    tanks = tuple(one.model_copy(update={"neutral": 0.85}) for one in plover.boat.tanks)
    boat = plover.boat.model_copy(update={"tanks": tanks})
    lighter = table(Assessment(boat=boat, files=plover.files)).at("servo stuck", "dived")
    assert lighter.ends == "on top"
    more = (plover.boat.tanks[0].neutral - 0.85) * float(plover.floater.tanks.capacities[0])
    gained = lighter.deep - square.deep
    assert gained == pytest.approx(more * plover.floater.density, rel=0.1)  # by hand, air shrinks


def test_tanks_emptied_is_where_she_floats(bittern: Assessment) -> None:
    """The same rest as with her tanks blown, which is worked out elsewhere."""
    square = table(bittern).at("signal lost", "dived")
    assert square.grams == pytest.approx(bittern.depths.blown, rel=1e-9)
    assert square.trim_angle == pytest.approx(bittern.surfaced.trim_angle, abs=1e-6)


def test_one_valve_stuck_is_one_tank_stuck(bittern: Assessment) -> None:
    """By the solver: 89 % in one tank and none in the other, and the lighter of the two ways."""
    square = table(bittern).at("servo stuck", "dived")
    waters = np.array([0.89, 0.0]) * bittern.floater.tanks.capacities
    alone = state(bittern.floater, rest(bittern.floater, waters))
    assert square.trim_angle == pytest.approx(alone.trim_angle, abs=1e-5)
    assert degrees(square.trim_angle) < 3.1  # as told of her
    assert square.water == pytest.approx(waters.sum())


def test_plant_dead_is_as_she_was_trimmed(bittern: Assessment) -> None:
    """89 % for 90.3 %: 36 g light at the surface, by hand."""
    square = table(bittern).at("plant dead", "dived")
    room = float(bittern.floater.tanks.capacities.sum())
    by_hand = (bittern.neutral - 0.89) * room * bittern.water.density
    assert square.grams == pytest.approx(by_hand, rel=1e-6)
    assert square.deep == pytest.approx(answers(bittern)[0].home.reserve, abs=1e-9)
    home = answers(bittern)[0].home
    soft = bittern.depths.compressibility
    assert home.reserve == pytest.approx(by_hand - soft.heavier(3.0), abs=1e-6)


def test_a_leak_costs_its_weight(grebe: Assessment) -> None:
    """One per cent of 5.54 kg is 55 g of lift less."""
    found = table(grebe)
    dry = found.at("signal lost", "dived").grams
    assert dry - found.at("leak", "dived").grams == pytest.approx(0.0554, rel=0.01)


def test_nothing_told_is_an_empty_square(bittern_as_bought: Assessment) -> None:
    found = table(bittern_as_bought)
    names = {one.failure for one in found.empty}
    assert names == {"signal lost", "leak", "too deep"}
    assert found.at("signal lost", "surfaced").ends == "not entered"


def test_a_weight_that_is_dropped(bittern: Assessment) -> None:
    """Lead of 430 g: its weight less the water that it pushes aside, by hand."""
    lead = max(bittern.boat.lead, key=lambda one: one.mass or 0.0)
    answer = Failsafe(signal_lost="drop weight", battery_low="come up", leak="come up",
                    too_deep="come up", too_deep_at=3.0, drops=lead.name)  # fmt: skip
    her = Assessment(boat=bittern.boat.model_copy(update={"failsafe": answer}), files=bittern.files)
    before = table(bittern).at("plant dead", "dived").grams
    after = table(her).at("signal lost", "dived")
    gain = (lead.mass or 0.0) * (1 - bittern.water.density / 11340)
    assert after.grams - before == pytest.approx(gain, rel=2e-3)
    assert after.does.kind == "weight-dropped"


def test_in_too_deep_water_she_stays_down(grebe: Assessment) -> None:
    """With a motor too weak for its screw the piston stays, and so does she, if she is heavy."""
    tanks = tuple(one.model_copy(update={"neutral": 0.95}) for one in grebe.boat.tanks)
    motor = grebe.boat.plants[0].motor
    assert motor is not None
    weak = grebe.boat.plants[0].model_copy(
        update={"motor": motor.model_copy(update={"torque": 0.01})}
    )
    boat = grebe.boat.model_copy(update={"tanks": tanks, "plants": (weak,)})
    square = table(Assessment(boat=boat, files=grebe.files)).at("signal lost", "dived")
    assert square.ends == "under"
    assert square.grams < 0
    say = Say(boat)
    assert said(say, square.does) == "no tank can be emptied completely, begun after 2 s"
    assert said(say, square.ending).startswith("on the bottom, ")


def test_the_depth_she_is_for(bittern: Assessment, plover: Assessment) -> None:
    assert depth_meant(bittern.boat) == 3.0
    assert depth_meant(plover.boat) == 0.8
    bare = bittern.boat.model_copy(update={"failsafe": None})
    assert depth_meant(bare) == 3.0  # usual


# ---- side by side


def test_every_kind_stands_beside_hers(bittern: Assessment) -> None:
    found = compare(bittern)
    assert found[0].fitted
    assert found[0].name == "as she is"
    assert [one.kind for one in found[1:]] == list(KINDS)
    say = Say(bittern.boat)
    for one in found:
        for figure in one.figures:
            assert label(bittern.boat, one, figure)
            assert shown(one, figure)
            assert said(say, figure.why)
    assert all(one.assumed for one in found[1:])


def test_what_tells_the_kinds_apart(bittern: Assessment) -> None:
    """Ballast systems as builders tell them: what each is good and bad at."""
    found = {one.kind: one for one in compare(bittern)[1:]}
    value = {
        kind: {figure.key: figure.value for figure in one.figures} for kind, one in found.items()
    }
    assert value["pump closed"]["filling"] == pytest.approx(0.5, abs=0.02)  # 50 % at 1 bar
    assert value["pump vented"]["filling"] == pytest.approx(1.0)
    assert value["gas"]["empty-deep"] < 60 < value["pump vented"]["empty-deep"] * 2
    assert "current" not in value["gas"]  # little power
    assert "empty-deep" not in value["snorkel"]  # useless if it cannot reach the surface
    assert any(one.is_snorkel_under for one in found["snorkel"].troubles)
    assert value["air bag"]["dry-pressure"] < 0  # vacuum
    assert found["air bag"].home.reserve < 0  # default state is heavy
    assert found["piston"].home.comes_up  # fails as it stands, trimmed light


def test_what_a_plant_cannot_do_is_said_in_whole_sentences(grebe: Assessment) -> None:
    """A motor too weak for its screw at depth: water stays in, or it does not start."""
    motor = grebe.boat.plants[0].motor
    assert motor is not None
    for torque in (0.01, 0.1):
        weak = motor.model_copy(update={"torque": torque})
        plant = grebe.boat.plants[0].model_copy(update={"motor": weak})
        boat = grebe.boat.model_copy(update={"plants": (plant,)})
        her = Assessment(boat=boat, files=grebe.files)
        troubles = her.works.answers[0].troubles
        assert troubles
        for one in troubles:
            what, mend = said(Say(boat), one.what), said(Say(boat), one.mend)
            assert one.where == plant.name
            assert not what.endswith(".")
            assert mend.endswith(".")
            assert not mend.endswith("..")
        text = "\n".join(one.text for one in bench_text(her) if isinstance(one, Words))
        assert ".." not in text
        assert any(one.key == "plant-start" for one in her.bench_findings)


def test_a_boat_without_tanks_has_nothing_to_compare(bittern: Assessment) -> None:
    her = Assessment(
        boat=bittern.boat.model_copy(update={"tanks": (), "plants": ()}), files=bittern.files
    )
    assert compare(her) == ()
    assert failures(her) is None
