"""Each field takes and names units of its own kind alone; a coefficient may be a plain number."""

import pytest

from trimdive.boatfile.bench import Closing, RingFitted
from trimdive.boatfile.form import form_fields
from trimdive.boatfile.plant import Motor, Screw
from trimdive.errors import TrimdiveError
from trimdive.page.entries.groups import label


@pytest.mark.parametrize(
    ("typed", "share"), [("0.2", 0.2), (0.2, 0.2), ("0,25", 0.25), ("20 %", 0.2), ("0", 0.0)]
)
def test_friction_is_a_number_or_a_share(typed: str | float, share: float) -> None:
    assert Screw.model_validate({"friction": typed}).friction == pytest.approx(share)
    with_units = Screw.model_validate({"friction": typed}, context={"length": "mm"})
    assert with_units.friction == pytest.approx(share)


@pytest.mark.parametrize("typed", ["20", "1.2", "true", "20 mm"])
def test_what_may_be_either_is_asked_about(typed: str) -> None:
    with pytest.raises(Exception, match=r"20|1\.2|true"):
        Screw.model_validate({"friction": typed}, context={"length": "mm"})


@pytest.mark.parametrize("typed", ["5 GHz", "5 MHz", "5"])
def test_a_motor_is_offered_its_own_units(typed: str) -> None:
    with pytest.raises((TrimdiveError, ValueError)) as refused:
        Motor.model_validate({"turns": typed}, context={"length": "mm"})
    assert "Hz" in str(refused.value)
    assert "GHz." not in str(refused.value)
    assert "kHz" not in str(refused.value)
    assert Motor.model_validate({"turns": "300 rpm"}).turns == pytest.approx(5.0)


def test_each_figure_of_cap_and_ring_is_named() -> None:
    """What stands beside a field says what it is by itself, not after the field before it."""
    named = {one.key: label(one) for model in (RingFitted, Closing) for one in form_fields(model)}
    assert named["inside"] == "Inside diameter of the ring, as measured"
    assert named["section"] == "Thickness of its rubber"
    assert named["diameter"] == "Diameter of a rod or screw, at the root of its thread"
    assert not [text for text in named.values() if text.startswith(("Or ", "And ", "Of "))]
