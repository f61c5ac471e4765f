"""Masses, places and densities as a garage can measure them; statics by hand in each test."""

import pytest

from trimdive.boatfile import Boat, parse
from trimdive.errors import BoatFileError, UnitError

HEAD = 'format = 1\nname = "x"\nscale = "1:24"\nplan_scale = "1:48"\nlength = "2300 mm"\n'
MARK = '[[mark]]\nname = "fore mark"\nx = "2000 mm"\n'
PART = '[[part]]\nname = "a"\nvolume = "10 cm3"\nz = "10 mm"\n'


def boat(text: str, head: str = HEAD) -> Boat:
    return parse(f"{head}{MARK}{PART}{text}")


def test_two_readings_by_the_ends_give_mass_and_place() -> None:
    # statics: the scale carries 1.8 kg at 100 mm and 2.7 kg at 2100 mm; moments about the stern
    ends = 'by_ends = { aft = "1800 g", x_aft = "100 mm", fore = "2.7 kg", x_fore = "2100 mm" }\n'
    part = boat(ends).parts[0]
    assert part.mass == pytest.approx(4.5)
    assert part.x == pytest.approx((1.8 * 0.1 + 2.7 * 2.1) / 4.5)
    assert part.known == "weighed"


def test_readings_by_the_ends_may_be_measured_from_the_bow() -> None:
    ends = (
        'by_ends = { from = "bow", aft = "1800 g", x_aft = "2200 mm", '
        'fore = "2.7 kg", x_fore = "200 mm" }\n'
    )
    assert boat(ends).parts[0].x == pytest.approx((1.8 * 0.1 + 2.7 * 2.1) / 4.5)


def test_a_place_counts_forward_from_a_mark() -> None:
    part = boat('mass = "1 g"\nfrom = "fore mark"\nx = "-30 mm"\n').parts[0]
    assert part.x == pytest.approx(1.970)


def test_figures_of_the_full_size_boat_and_of_the_plan() -> None:
    full = boat('mass = "1 g"\nx = "24 m full size"\n').parts[0]
    assert full.x == pytest.approx(1.0)
    plan = boat('mass = "1 g"\nx = "500 mm on the plan"\n').parts[0]
    assert plan.x == pytest.approx(0.5 * 48 / 24)


def test_a_full_size_figure_needs_a_scale() -> None:
    head = 'format = 1\nname = "x"\nlength = "2300 mm"\n'
    with pytest.raises(UnitError, match="needs a scale, and the file has none"):
        boat('mass = "1 g"\nx = "24 m full size"\n', head)


def test_a_mass_is_not_read_full_size() -> None:
    with pytest.raises(UnitError, match="does not follow from a length"):
        boat('mass = "1 kg full size"\nx = "1 m"\n')


def test_an_offcut_in_air_and_in_water_gives_the_density() -> None:
    # Archimedes: 12.8 g in air, 4.8 g in water of 0.9991 g/cm3 push 8.007 cm3 aside
    part = boat('mass = "1 g"\nx = "1 m"\noffcut = { air = "12.8 g", water = "4.8 g" }\n').parts[0]
    assert part.density == pytest.approx(999.1 * 12.8 / 8.0)


COAT = """
[[region]]
name = "h"
surface = "suboff"
length = "1 m"
z = "100 mm"
thickness = "2 mm"
material = "GRP"
[[coat]]
name = "paint"
material = "paint"
"""


def test_a_coat_by_weighing_before_and_after() -> None:
    coat = parse(f'{HEAD}{COAT}before = "1200 g"\nafter = "1255 g"\n').coats[0]
    assert coat.mass == pytest.approx(0.055)
    assert coat.known == "weighed"


def test_the_wall_is_the_mean_of_the_spots() -> None:
    text = COAT.replace(
        'thickness = "2 mm"',
        'walls = [{ x = "1 m", thickness = "2.2 mm" }, { x = "2 m", thickness = "3.0 mm" }]',
    )
    skin = parse(f'{HEAD}{text}mass = "1 g"\n').regions[0]
    assert skin.thickness == pytest.approx(0.0026)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (
            'mass = "1 g"\n'
            'by_ends = { aft = "1 g", x_aft = "0 m", fore = "1 g", x_fore = "1 m" }\n',
            "both say it",
        ),
        ('by_ends = { aft = "1 g", x_aft = "1 m", fore = "1 g", x_fore = "1 m" }\n', "same place"),
        (
            'mass = "1 g"\nx = "1 m"\noffcut = { air = "4 g", water = "4 g" }\n',
            "as much under water as in air",
        ),
        ('mass = "1 g"\nx = "1 m"\nfrom = "fore markk"\n', "Did you mean 'fore mark'"),
    ],
)
def test_readings_that_cannot_be(text: str, said: str) -> None:
    with pytest.raises(BoatFileError, match=said):
        boat(text)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ('before = "1 g"\n', "belong together"),
        ('mass = "1 g"\nper_area = "100 g/m2"\n', "entered twice"),
        ('before = "2 g"\nafter = "1 g"\n', "no more after than before"),
        ("", "its mass is missing"),
    ],
)
def test_coats_that_cannot_be(text: str, said: str) -> None:
    with pytest.raises(BoatFileError, match=said):
        parse(f"{HEAD}{COAT}{text}")
