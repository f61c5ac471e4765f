"""Full stops behind units, and words such as "about" before figures."""

import pytest

from trimdive.errors import UnitError
from trimdive.units import read


@pytest.mark.parametrize(
    ("text", "kind", "value"),
    [
        ("8in.", "length", 0.2032),
        ("216 mm.", "length", 0.216),
        ("3 lb. 4 oz.", "mass", 3.25 * 0.45359237),
        ("about 216 mm", "length", 0.216),
        ("ca. 55 g", "mass", 0.055),
        ("ca 55 g", "mass", 0.055),
        ("approx 3 kg", "mass", 3.0),
        ("Approx. 3 kg", "mass", 3.0),
        ("~1.1 kg", "mass", 1.1),
        ("≈ 1,1 kg", "mass", 1.1),
    ],
)
def test_read_as_the_figure_alone(text: str, kind: str, value: float) -> None:
    assert read(text, kind) == pytest.approx(value, rel=1e-12)


def test_a_spread_within_a_mass_is_told_where_it_belongs() -> None:
    with pytest.raises(UnitError) as caught:
        read("~1.1 kg ± 50 g", "mass")
    assert caught.value.what == "'~1.1 kg ± 50 g' tells two figures"
    assert caught.value.mend == (
        'Write "1.1 kg", and how far it is off apart, as spread = "± 50 g".'
    )
    with pytest.raises(UnitError, match=r'Write "216 mm"\.$'):
        read("216 mm +/- 2 mm", "length")


@pytest.mark.parametrize("text", ["about", "~", "about kg", "calm 3 kg", "3 kg..", "± 3 kg"])
def test_what_is_still_no_mass(text: str) -> None:
    with pytest.raises(UnitError):
        read(text, "mass")
