"""What is said of a boat that lies far over: side of a loll, draughts of a boat on end."""

from dataclasses import replace
from math import cos, degrees, radians, sin
from pathlib import Path

import numpy as np
import pytest
from tests.rest.floaters import NO_WATER, boat_of, box_at
from tests.rest.tankers import tanker

from trimdive.assessment import Assessment, assess
from trimdive.cli.as_json import state_document
from trimdive.hydrostatics.equilibrium import State, either_side, rest, state
from trimdive.text import words

BITTERN = Path(__file__).parents[2] / "boats" / "bittern" / "boat.toml"


@pytest.fixture(scope="module")
def bittern() -> Assessment:
    return assess(BITTERN)


def tilted(her: Assessment, trim: float) -> State:
    """Return her as if she floated bow down by so many degrees, her middle in the water."""
    n = np.array([-sin(radians(trim)), 0.0, cos(radians(trim))])
    at = replace(her.surfaced.rest, n=n, d=float(n @ her.floater.tree.centre))
    return state(her.floater, at)


def test_a_square_log_lolls_to_either_side() -> None:
    """A square log of half the water's density floats corner up, 45° over, to either side.

    Source: the classic floating square beam; it rests on its edge between densities 0.28 and 0.72.
    """
    log = boat_of([box_at((2.0, 0.1, 0.1))], 10.0, (0.0, 0.0, 0.05))
    at = rest(log, NO_WATER)
    assert abs(degrees(state(log, at).heel)) == pytest.approx(45.0, abs=1e-6)
    assert either_side(log, at)


def test_a_boat_with_her_mass_off_the_middle_leans_to_her_own_side() -> None:
    log = boat_of([box_at((2.0, 0.3, 0.1))], 30.0, (0.0, 0.01, 0.02))
    at = rest(log, NO_WATER)
    assert abs(degrees(state(log, at).heel)) > 1.0
    assert not either_side(log, at)


def test_upright_she_has_no_side() -> None:
    boat, waters = tanker()
    assert not either_side(boat, rest(boat, waters))


def test_her_lean_is_told_to_either_side_only_where_chance_decides(
    bittern: Assessment, monkeypatch: pytest.MonkeyPatch
) -> None:
    n = np.array([0.0, -sin(0.2), cos(0.2)])
    over = replace(bittern.surfaced, rest=replace(bittern.surfaced.rest, n=n), heel=-0.2)
    for is_even, words_then in ((True, "11.5° to either side"), (False, "11.5° to port")):
        named = "trimdive.hydrostatics.equilibrium.named.either_side"
        monkeypatch.setattr(named, lambda _, __, even=is_even: even)
        assert words.heel_at(bittern, over) == words_then


@pytest.mark.parametrize(
    ("trim", "is_entered"), [(0, True), (40, True), (50, False), (89.9, False)]
)
def test_draughts_are_told_up_to_45_degrees(
    bittern: Assessment, trim: float, is_entered: bool
) -> None:
    found = tilted(bittern, trim)
    assert found.has_draughts is is_entered
    document = state_document(bittern, found)
    assert (document["draughts"] is not None) is is_entered


def test_on_end_the_place_of_the_water_is_told_instead(bittern: Assessment) -> None:
    found = tilted(bittern, 89.99)
    said = words.instead_of_draughts(bittern, found)
    assert said.startswith("She floats on end, bow down: the water crosses her keel line 1")
    assert words.no_draughts(found) == "on end"


@pytest.mark.parametrize(
    ("n", "posture"),
    [((0, 0, 1), "upright"), ((0, 0, -1), "upside down"), ((0.8, 0, 0.6), "on end"),
     ((0.1, 0.9, 0.42), "on her side")],
)  # fmt: skip
def test_postures(bittern: Assessment, n: tuple[float, float, float], posture: str) -> None:
    found = replace(bittern.surfaced, rest=replace(bittern.surfaced.rest, n=np.array(n)))
    assert found.posture == posture
