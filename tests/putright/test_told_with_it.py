"""What is told with a mend: things keep their names as others go, and what is far worse then."""

from dataclasses import replace

import pytest
from tests.larger_tube import new_boat

from trimdive.assessment import Assessment
from trimdive.boatfile import parse
from trimdive.boatfile.ref import Ref
from trimdive.boatfile.whole import without_piece
from trimdive.edits.writing import rewritten
from trimdive.findings import Edit, Finding
from trimdive.findings.order import with_rest


def foam_names(text: str) -> list[str]:
    return [one.name for one in parse(text).foam]


def test_what_has_no_name_is_called_as_before_when_another_is_removed() -> None:
    """Foam 2 is none other once foam 1 is out, by a mend and by hand."""
    text = new_boat()
    names = foam_names(text)
    assert len(names) > 4
    assert names == [f"foam {k}" for k in range(1, len(names) + 1)], "named by their numbers"
    edits = tuple(Edit(action="remove", path=f"foam[{k}]", fields=()) for k in (2, 4))
    left = [one for one in names if one not in ("foam 2", "foam 4")]
    mended = rewritten(text, edits, {})
    assert foam_names(mended) == left
    assert foam_names(rewritten(mended, edits[:1], {})) == [left[0], *left[2:]]
    by_hand, _ = without_piece(text, Ref("foam", 1))
    assert foam_names(by_hand) == names[1:]


def test_a_new_one_takes_no_name_that_is_taken() -> None:
    text, _ = without_piece(new_boat(), Ref("foam", 1))
    count = len(foam_names(text))
    more = text.replace(
        "[[foam]]", '[[foam]]\nvolume = "1 cm3"\nx = "450 mm"\nz = "60 mm"\n\n[[foam]]'
    )
    names = foam_names(more)
    assert len(names) == 2 * count
    assert len(set(names)) == len(names)


@pytest.fixture
def two(bittern_as_bought: Assessment) -> tuple[Finding, Finding]:
    """Return a fault with its mend, and another that must be put right too."""
    first, *others = (one for one in bittern_as_bought.checked if one.weight == "put right")
    cause = first if first.edits else next(one for one in others if one.edits)
    other = next(one for one in (first, *others) if one is not cause and one.over < 10)
    return cause, other


@pytest.mark.parametrize(("times", "is_told"), [(1.0, False), (1.9, False), (2.1, True)])
def test_what_is_far_worse_then_is_told(
    two: tuple[Finding, Finding], times: float, is_told: bool
) -> None:
    """Twice as far from nought as now, in limits, is told again; a little more is not."""
    cause, other = two
    then = replace(other, over=times * (other.over + 1) - 1)
    found = with_rest(two, {cause: (then,)})
    told = next(one for one in found if one.about == cause.about)
    assert then.over >= other.over
    assert (other.what in told.hidden) is is_told
