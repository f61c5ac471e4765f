"""Checks of how she fits: each passing, failing and just at its limit; what frees a cylinder.

Limits are common practice, no source. The demo boats are invented: Bittern as bought has a casing
that opens 560 mm, and cylinders of 612 mm.
"""

from dataclasses import replace

import pytest
from tests.said import mend_of, what_of

from trimdive.assessment import Assessment
from trimdive.findings import FIT_CHECKS, Finding, fit_findings, limit_of
from trimdive.fit.fitted import Fit
from trimdive.fit.gaps import MOVING

HAIR = 1e-9


def ran(key: str, her: Assessment, found: Fit, value: float | None = None) -> tuple[Finding, ...]:
    """Return what one check finds, with its limit or with this one [SI]."""
    limit = limit_of(key, her.boat)
    if value is not None:
        limit = replace(limit, value=value)
    return tuple(FIT_CHECKS[key](found, limit))


def test_every_check_of_how_she_fits_is_tried_here() -> None:
    assert set(FIT_CHECKS) == {"way-out", "gap-cylinder", "gap-moving"}


def test_what_stays_in_is_freed_by_the_changes_that_are_offered(
    bittern_as_bought: Assessment,
) -> None:
    """All that is offered, done: by the search itself both cylinders come out then."""
    her = bittern_as_bought
    found = ran("way-out", her, her.fit)
    assert [one.subject for one in found] == ["cylinder[1]", "cylinder[2]"]
    for one in found:
        assert "does not come out: the opening of casing hatch is 560 mm long" in what_of(one)
        assert one.weight == "put right"
    forward, after = found
    assert "forward to 1647 mm" in mend_of(forward)
    assert "aft to 617 mm" in mend_of(after)
    freed = her.edited((*forward.edits, *after.edits))
    assert ran("way-out", freed, freed.fit) == ()


@pytest.mark.parametrize("key", ["gap-cylinder", "gap-moving"])
def test_a_gap_just_at_its_limit(plover: Assessment, key: str) -> None:
    wide = replace(plover.fit.gaps[0], kind="cylinder", to="skin", width=0.002)
    if key == "gap-moving":
        wide = replace(wide, kind=MOVING, to="thing")
    fit = replace(plover.fit, gaps=(wide,))
    assert ran(key, plover, fit) == ()
    assert ran(key, plover, fit, 0.002) == ()
    (found,) = ran(key, plover, fit, 0.002 * (1 + HAIR))
    assert found.stands == 0.002
    assert "2.0 mm" in what_of(found)
    touching = replace(fit, gaps=(replace(wide, width=0.0),))
    (found,) = ran(key, plover, touching)
    assert "touches" in what_of(found)


def test_a_boat_in_order_keeps_nothing_in(plover: Assessment) -> None:
    assert all(one.weight == "look at" for one in fit_findings(plover.boat, plover.fit))
