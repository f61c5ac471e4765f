"""What a person types, read: worked by hand from the definitions in NIST SP 811, appendix B.8."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trimdive.errors import UnitError
from trimdive.units import Spread, kinds, read, read_spread

IN, FT, LB, OZ = 0.0254, 0.3048, 0.45359237, 0.45359237 / 16


@pytest.mark.parametrize(
    ("text", "kind", "value"),
    [
        ("14 in", "length", 14 * IN),
        ("9 3/4 in", "length", 9.75 * IN),
        ("8-1/2 in", "length", 8.5 * IN),
        ("11½\"", "length", 11.5 * IN),
        ("11½″", "length", 11.5 * IN),
        ("8.5''", "length", 8.5 * IN),
        ("8.5’’", "length", 8.5 * IN),
        ("8.5 \u00b4\u00b4", "length", 8.5 * IN),
        ("9' 2''", "length", 9 * FT + 2 * IN),
        ("9′2′′", "length", 9 * FT + 2 * IN),
        ("¾ in", "length", 0.75 * IN),
        ("3/32 in", "length", 3 / 32 * IN),
        ("7 ft 2 in", "length", 7 * FT + 2 * IN),
        ("9' 2 1/2\"", "length", 9 * FT + 2.5 * IN),
        ("9’2”", "length", 9 * FT + 2 * IN),
        ("850mm", "length", 0.85),
        ("850\u2009mm", "length", 0.85),
        ("1 200 mm", "length", 1.2),
        ("1\u202f200,5 mm", "length", 1.2005),
        ("1,234.5 mm", "length", 1.2345),
        ("1.234,5 mm", "length", 1.2345),
        ("1,234,567 mm", "length", 1234.567),
        ("2,4 mm", "length", 0.0024),
        ("0,250 m", "length", 0.25),
        (".5 in", "length", 0.5 * IN),
        ("2.5e-3 m", "length", 0.0025),
        ("-35 mm", "length", -0.035),
        ("− 35 mm", "length", -0.035),
        ("+35 mm", "length", 0.035),
        ("2 Inches", "length", 2 * IN),
        ("2 fathoms", "length", 12 * FT),
        ("3 lb 4 oz", "mass", 3 * LB + 4 * OZ),
        ("-3 lb 4 oz", "mass", -3 * LB - 4 * OZ),
        ("4.7 kg", "mass", 4.7),
        ("85 g", "mass", 0.085),
        ("720 t", "mass", 720e3),
        ("1:32", "ratio", 32.0),
        ("1/96", "ratio", 96.0),
        ("1 : 72", "ratio", 72.0),
        ("3/8 in = 1 ft", "ratio", 32.0),
        ("14 °C", "temperature", 14.0),
        ("57 °F", "temperature", (57 - 32) / 1.8),
        ("-4 °F", "temperature", -20.0),
        ("288.15 K", "temperature", 15.0),
        ("3 L", "volume", 0.003),
        ("2 gal (US)", "volume", 2 * 231 * IN**3),
        ("2 imperial gallons", "volume", 2 * 4.54609e-3),
        ("560 cm3", "volume", 560e-6),
        ("1.2 bar", "pressure", 1.2e5),
        ("30 psi", "pressure", 30 * LB * 9.80665 / IN**2),
        ("400 mA", "current", 0.4),
        ("12.8 V", "voltage", 12.8),
        ("12 Ah", "charge", 43200.0),
        ("2200 mAh", "charge", 7920.0),
        ("1 h 20 min", "time", 4800.0),
        ("10.5 kn", "speed", 10.5 * 1852 / 3600),
        ("1.6 g/cm³", "density", 1600.0),
        ("100 lb/ft3", "density", 100 * LB / FT**3),
        ("90 %", "percent", 0.9),
        ("12° 30'", "angle", 0.21816615649929119),
        ("35 g/kg", "salt", 35.0),
        ("3200 ppm", "salt", 3.2),
    ],
)  # fmt: skip
def test_reads(text: str, kind: str, value: float) -> None:
    is_rare = "fathom" in text  # the library's fathom is the survey one, 2 ppm longer
    assert read(text, kind) == pytest.approx(value, rel=3e-6 if is_rare else 1e-14)


@pytest.mark.parametrize(
    ("text", "kind", "says"),
    [
        ("850", "length", "'850' has no length unit. Write a number and one of: mm, cm, m,"),
        ("1 1/2", "length", "has no length unit"),
        ("85 g", "length", "'85 g' is a mass, not a length."),
        ("3 fathoms", "mass", "'3 fathoms' is a length, not a mass."),
        ("9 in^", "length", "there is no unit 'in^'. Did you mean in?"),
        ("3 lb^4 oz", "length", "there is no unit 'lb^'. Write a number and one of: mm, cm"),
        ("12 inchs", "length", "there is no unit 'inchs'. Did you mean inch?"),
        ("12 mn", "length", "Did you mean mm?"),
        ("4 ouncs", "mass", "there is no unit 'ouncs'. Did you mean ounce?"),
        ("3 blorps", "mass", "there is no unit 'blorps'. Write a number and one of: g, kg"),
        ("1,200 g", "mass", "may part thousands or decimals. Write 1200 or 1.200."),
        ("2 gal", "volume", "'gal' may mean gal (US) or gal (UK). Write which one."),
        ("3 ft 14 in", "length", "does not add up to one length"),
        ("3 mm 2 ft", "length", "does not add up to one length"),
        ("1'200 mm", "length", "does not add up to one length"),
        ("2.5 ft 3 in", "length", "does not add up to one length"),
        ("1.2.3 mm", "length", "'1.2.3' in '1.2.3 mm' is not a number"),
        ("3/0 in", "length", "'3/0' in '3/0 in' is not a number"),
        ("nearly 3 mm", "length", "'nearly 3 mm' is not a length"),
        ("5 - 3 mm", "length", "'5 - 3 mm' is not a length"),
        ("", "length", "'' is not a length"),
        ("mm", "length", "'mm' is not a length"),
        ("9" * 5000, "length", "is too long to be a length"),
        ("1e999999999 mm", "length", "has no length unit"),
        ("24", "ratio", "'24' is not a scale. Write it as 1:20, or as 1/20."),
        ("1:0", "ratio", "'1:0' is not a scale"),
        ("1:x", "ratio", "'1:x' is not a scale"),
        ("0:24", "ratio", "'0:24' is not a scale"),
    ],
)  # fmt: skip
def test_refuses_in_a_sentence(text: str, kind: str, says: str) -> None:
    with pytest.raises(UnitError) as caught:
        read(text, kind, where="tank[2].bore")
    assert says in str(caught.value)
    assert str(caught.value).startswith("tank[2].bore: ")


def test_a_bare_number_takes_the_unit_named_for_it() -> None:
    assert read("850", "length", "mm") == 0.85
    assert read("9 3/4", "length", "in") == pytest.approx(9.75 * IN, rel=1e-15)
    assert read("850 cm", "length", "mm") == 8.5


def test_spreads() -> None:
    assert read_spread("± 40 g") == Spread(0.04, is_share=False)
    assert read_spread("+/-1/2 oz").of(3.0) == pytest.approx(OZ / 2, rel=1e-14)
    assert read_spread("±5%").of(2.0) == pytest.approx(0.1, rel=1e-14)
    for wrong in ("± 3 mm", "-3 g", "a bit"):
        with pytest.raises(UnitError, match="Write it as ± 40 g or ± 5 %"):
            read_spread(wrong)


def is_number_or_sentence(text: str, kind: str) -> bool:
    try:
        return math.isfinite(read(text, kind))
    except UnitError as error:
        return bool(error.what and error.mend)


@given(text=st.text(max_size=40), kind=st.sampled_from([*kinds(), "ratio"]))
def test_whatever_is_typed_is_a_number_or_a_sentence(text: str, kind: str) -> None:
    assert is_number_or_sentence(text, kind)


PIECES = st.sampled_from(["1", "12", ",", ".", "/", "½", " ", "-", "mm", "in", "'", '"', "e", "lb"])


@given(text=st.lists(PIECES, max_size=12).map("".join))
def test_near_quantities_are_a_number_or_a_sentence(text: str) -> None:
    assert is_number_or_sentence(text, "length")


@pytest.mark.parametrize(
    ("text", "together"),
    [("3x24 g", "72 g"), ("3 × 24 g", "72 g"), ("24 g x 3", "72 g"), ("2 * 1,5 oz", "3 oz")],
)
def test_several_alike_are_told_what_they_come_to(text: str, together: str) -> None:
    with pytest.raises(UnitError) as found:
        read(text, "mass")
    assert "times" in found.value.what
    assert found.value.mend == f'Write what they come to together: "{together}".'
    assert read(together, "mass") > 0
