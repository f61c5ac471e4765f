"""Boats arranged by one press: each other answer of the program says of them what it says of any.

Source: the demo boats, invented; what is in order is judged by the checks, the full solver, shared
room and the search for ways out, none of which the arranging itself looks at.
"""

from functools import cache
from pathlib import Path
from tempfile import mkdtemp

import numpy as np
import pytest
from tests.arranging.right import in_order
from tests.arranging.shells import copied, empty_shell, shuffled
from tests.conftest import BOATS

from trimdive.arranging.work import Arranged, arrange, first, ready
from trimdive.assessment import Assessment, assess
from trimdive.boatfile import Cylinder, Part, Tank, load
from trimdive.edits.work import written
from trimdive.errors import AskError
from trimdive.geometry.clashes.found import touches
from trimdive.geometry.clashes.scene import placed_at

AMPLE = 100.0  # so that no slow machine runs out of time [s]


@cache
def shell(name: str) -> Path:
    return empty_shell(name, Path(mkdtemp()))


@cache
def arranged(name: str) -> Arranged:
    """Return a demo boat arranged from an empty shell, her motor at the after cap by her file."""
    return arrange(assess(shell(name)), seconds=AMPLE, most=1)


@pytest.mark.parametrize("name", ["grebe", "plover"])
def test_an_empty_shell_is_arranged_by_one_press(name: str) -> None:
    """What is written floats, dives, fits and comes out; before, nothing of it was in order."""
    file = shell(name)
    before = assess(file)
    assert before.urgent > 3
    done = arranged(name)
    (one,) = done.found
    assert one.is_placed
    assert one.order.proven
    loaded = load(file)
    text = loaded.text
    written(before, loaded, one.steps)
    try:
        in_order(assess(file))
    finally:
        file.write_text(text, "utf-8")


def test_things_lie_behind_each_other_with_the_motor_aft() -> None:
    done = arranged("grebe")
    (one,) = done.found
    ends = np.array([thing.ends for thing in done.layout.things]) + one.order.things[:, None]
    rows = ends[np.argsort(ends[:, 0])]
    assert (rows[1:, 0] - rows[:-1, 1] >= done.layout.gap - 1e-6).all()
    (tube,) = done.layout.tubes
    low, high = np.array(tube.room) + one.order.tubes[0]
    assert low - 1e-6 <= rows[0, 0]
    assert rows[-1, 1] <= high + 1e-6
    assert done.layout.things[int(np.argmin(ends[:, 0]))].name == "motor"
    assert rows[0, 0] == pytest.approx(low, abs=1e-6)  # at the cap itself, where its shaft is


def test_a_tank_takes_its_works_along() -> None:
    """They lay 30 mm aft of it, or, all at one place, come to its middle."""
    boat = arranged("grebe").found[0].her.boat
    works = next(part for part in boat.parts if part.works_of)
    assert works.x == pytest.approx(boat.tanks[0].x)


def test_a_boat_that_was_shuffled_comes_back_in_order(tmp_path: Path) -> None:
    file = shuffled("grebe", tmp_path, 0.04)
    before = assess(file)
    assert not before.in_order
    done = arrange(before, seconds=AMPLE, most=1)
    assert done.found[0].is_placed
    loaded = load(file)
    in_order(written(before, loaded, done.found[0].steps))


def test_two_cylinders_do_not_lie_in_each_other() -> None:
    it = ready(assess(shell("bittern")))
    order, _ = first(it, AMPLE)
    assert order.proven
    assert it.layout.beside == ((0, 1),)
    one, other = (
        np.array(tube.ends) + far for tube, far in zip(it.layout.tubes, order.tubes, strict=True)
    )
    assert one[1] < other[0] or other[1] < one[0]


def test_nothing_that_is_kept_moves() -> None:
    it = ready(assess(BOATS / "grebe" / "boat.toml"), ("cylinder[1]", "part[2]", "lead[3]"))
    order, _ = first(it, AMPLE)
    assert order.tubes.tolist() == [0.0]
    kept = [k for k, thing in enumerate(it.layout.things) if thing.is_kept]
    assert [it.layout.things[k].name for k in kept] == ["battery"]
    assert [order.things[k] for k in kept] == [0.0]
    assert len(it.bare.boat.lead) == 1
    (lead,) = it.bare.boat.lead
    assert lead == it.her.boat.lead[2]
    assert [thing.is_kept for thing in it.layout.things].count(False) > 3


@pytest.mark.parametrize("kind", ["lead", "foam"])
def test_what_the_file_keeps_stays(kind: str, tmp_path: Path) -> None:
    """With the cylinder held by it: it goes no farther than its neighbours let it."""
    file = copied("grebe", tmp_path)
    file.write_text(f'{file.read_text("utf-8")}\n[placing]\n{kind} = "keep"\n', "utf-8")
    it = ready(assess(file))
    other = {"lead": "foam", "foam": "lead"}[kind]
    assert getattr(it.bare.boat, kind) == getattr(it.her.boat, kind)
    assert getattr(it.bare.boat, other) == ()
    own = it.bare.scene.by_path["cylinder[1]"][0]
    for low, high in it.layout.tubes[0].ranges:
        for far in (low, high):
            moved = placed_at([own], (far, 0.0, 0.0))
            clash = [one for one in it.bare.scene.aboard.solids if one.kind == kind
                     and not touches(one.shape, moved[0].shape)]  # fmt: skip
            assert clash == []


def test_names_change_nothing() -> None:
    """Renamed, every cylinder, tank and part goes where it went."""
    file = shell("grebe")
    her = assess(file)
    names = {one.name: f"thing {k}" for k, one in enumerate(_named(her))}
    lists = {
        key: tuple(
            one.model_copy(
                update={
                    field: names[getattr(one, field)]
                    for field in ("name", "inside", "works_of")
                    if getattr(one, field, None) in names
                }
            )
            for one in getattr(her.boat, key)
        )
        for key in ("cylinders", "tanks", "parts")
    }
    lists["runs"] = tuple(
        run.model_copy(update={"of": names[run.of], "to": names[run.to]}) for run in her.boat.runs
    )
    other = Assessment(boat=her.boat.model_copy(update=lists), files=her.files)
    one, two = (first(ready(boat), AMPLE)[0] for boat in (her, other))
    assert one.sides == two.sides
    assert one.things.tolist() == two.things.tolist()
    assert one.tubes.tolist() == two.tubes.tolist()


def _named(her: Assessment) -> tuple[Cylinder | Tank | Part, ...]:
    return (*her.boat.cylinders, *her.boat.tanks, *her.boat.parts)


def test_what_is_too_long_is_refused_with_by_how_much() -> None:
    """Four batteries of 200 mm in a room of 578 mm: 800 mm, and 1 mm between."""
    her = assess(BOATS / "grebe" / "boat.toml")
    battery = next(part for part in her.boat.parts if part.name == "battery")
    more = tuple(
        battery.model_copy(update={"name": f"battery {k}", "length": 0.2}) for k in range(4)
    )
    boat = her.boat.model_copy(update={"parts": more, "tanks": (), "batteries": (), "plants": ()})
    with pytest.raises(AskError, match="225 mm longer") as refused:
        ready(Assessment(boat=boat, files=her.files))
    assert refused.value.where == "cylinder[1]"


def test_a_cylinder_too_wide_for_the_hull_is_refused() -> None:
    her = assess(BOATS / "grebe" / "boat.toml").with_piece("cylinder", outside="130 mm")
    with pytest.raises(AskError, match="goes into the hull nowhere"):
        ready(her)


def test_a_cylinder_is_raised_to_where_it_goes_in() -> None:
    """With its axis 20 mm above the keel its bottom would be under the hull."""
    her = assess(BOATS / "grebe" / "boat.toml").with_piece("cylinder", z="0.02 m")
    it = ready(her)
    (vessel,) = it.bare.boat.cylinders
    up = vessel.z - 0.02
    assert up > 0.02
    was = {part.name: part.z for part in her.boat.parts}
    for part in it.bare.boat.parts:
        moved = up if part.inside else 0.0
        assert part.z == pytest.approx(was[part.name] + moved)
    assert it.layout.tubes[0].ranges
