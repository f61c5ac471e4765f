"""How sure the figures of a moment are: against the full solver, and against the named states."""

from pathlib import Path

import numpy as np
import pytest

from trimdive.assessment import Assessment, assess
from trimdive.geometry.lines.mesh import Floats
from trimdive.hydrostatics.equilibrium import rest, state
from trimdive.uncertainty import changed, halves, sources, things
from trimdive.uncertainty.moment import moment

ROOT = Path(__file__).parents[2]
FILLINGS = (0.1, 0.5, 0.95)  # of the way, afloat and wholly under [-]
LITTLE = 0.02  # standard deviations by which all is put off at once [-]
AS_WELL = 0.03  # to which a straight line holds over that [-]
BOATS = ("plover", "grebe", "bittern")


def assessed(name: str) -> Assessment:
    return assess(ROOT / "boats" / name / "boat.toml")


@pytest.mark.parametrize("filling", FILLINGS)
@pytest.mark.parametrize("name", BOATS)
def test_as_the_full_solver_has_it(name: str, filling: float) -> None:
    """All sources off a little, half of them the other way, and back: the middle difference."""
    her = assessed(name)
    found = things(her.boat, her.files, her.bodies, her.masses)
    listed = sources(her.boat, her.masses, found, her.floater.tanks.capacities)
    lies = her.moment(filling, up=False).state
    signs = LITTLE * np.where(np.random.default_rng(7).random(len(listed)) > 0.5, 1.0, -1.0)

    def figures(off: Floats) -> Floats:
        floater = changed(her.floater, found, listed, off)
        waters = lies.rest.waters * floater.tanks.capacities / her.floater.tanks.capacities
        at = state(
            floater, rest(floater, waters, start=lies.rest, hanging=lies.rest.under, escape=False)
        )
        mass = floater.mass + floater.density * float(waters.sum())
        return np.array([at.trim_angle, mass - floater.density * floater.volume, at.bg])

    seen = (figures(signs) - figures(-signs)) / 2
    found = moment(her, lies)
    each = (found.trim, found.excess, found.bg)
    answer = [float(signs @ one) for one in each]
    sizes = [LITTLE * float(np.linalg.norm(one)) for one in each]
    assert np.abs(seen - answer) / sizes == pytest.approx([0.0] * 3, abs=AS_WELL)


@pytest.mark.parametrize("name", BOATS)
def test_as_the_named_states_have_it(name: str) -> None:
    her = assessed(name)
    left = her.uncertainty.figure("lift left").half
    assert halves(her, her.full).excess == pytest.approx(left, rel=1e-3)
    low = halves(her, her.lowest)
    assert low.trim == pytest.approx(her.uncertainty.figure("trim dived").half)
    assert low.bg == pytest.approx(
        her.uncertainty.figure("bg").half, rel=0.01
    )  # there she is upright
    assert halves(her, her.surfaced).trim == pytest.approx(
        her.uncertainty.figure("trim surfaced").half
    )
