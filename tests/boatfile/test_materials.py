"""Materials by the names that builders give them."""

import pytest

from trimdive.boatfile import parse
from trimdive.boatfile.materials import MOST, unknown_material
from trimdive.errors import BoatFileError

BOAT = """format = 1
name = "Trial"
[[part]]
name = "frame"
mass = "71 g"
x = "178 mm"
z = "62 mm"
material = "{material}"
"""


@pytest.mark.parametrize(("typed", "meant"), [("grp", "GRP"), ("Birch Ply", "birch ply")])
def test_case_does_not_matter(typed: str, meant: str) -> None:
    (part,) = parse(BOAT.format(material=typed)).parts
    assert part.material == meant
    assert part == parse(BOAT.format(material=meant)).parts[0]


MENDS = {
    "messing": "Did you mean 'brass'?",
    "Fibreglass": "Did you mean 'GRP'?",
    "gpr": "Did you mean 'GRP'?",
    "polyester": "Write one of: GRP mat, GRP woven, filler; or give its density beside it.",
    "wood": "Write one of: birch ply, balsa, basswood, pine, hardwood; or give its density",
    "unobtainium": "Write one such as GRP, ABS, acrylic, brass, lead, or give its density",
}


@pytest.mark.parametrize("typed", MENDS)
def test_a_material_that_is_none_gets_a_handful_of_names(typed: str) -> None:
    with pytest.raises(BoatFileError) as caught:
        parse(BOAT.format(material=typed))
    assert caught.value.where == "boat.toml:8: part[1].material"
    assert caught.value.what == f"there is no material '{typed}'"
    assert caught.value.mend.startswith(MENDS[typed])
    assert unknown_material(typed).mend.count(",") <= MOST


def test_another_material_with_its_density_needs_no_row() -> None:
    text = BOAT.format(material="unobtainium") + 'density = "1.2 g/cm3"\n'
    assert parse(text).parts[0].density == pytest.approx(1200.0)
