"""A slip put right is written as the builder wrote the figure: in its unit, where it stood."""

import pytest
from tests.conftest import BOATS
from tests.slips.typed import figures

from trimdive.assessment import Assessment
from trimdive.boatfile import load, parse, set_value
from trimdive.edits.writing import rewritten
from trimdive.geometry.solids.beside import read_beside

FILE = BOATS / "grebe" / "boat.toml"


@pytest.mark.parametrize(
    ("place", "times"),
    [
        ("foam[1].density", 10),
        ("waterline.height", 10),
        ("part[2].mass", 1000),
        ("lead[2].x", 10),
        ("region[1].below", 10),
    ],
)
def test_put_right_she_is_as_she_was(place: str, times: int) -> None:
    loaded = load(FILE)
    files = read_beside(loaded)
    right = next(
        typed for path, field, typed, _ in figures(loaded.text) if f"{path}.{field}" == place
    )
    number, _, unit = right.partition(" ")
    text = set_value(loaded.text, place, f"{float(number) * times:g} {unit}")
    wrong = Assessment(boat=parse(text), files=files)
    first = wrong.first_findings[0]
    assert first.subject == place
    written = rewritten(text, first.edits, files)
    again = next(typed for path, field, typed, _ in figures(written) if f"{path}.{field}" == place)
    assert again.partition(" ")[2].replace("³", "3") == unit
    assert float(again.partition(" ")[0]) == pytest.approx(float(number), rel=1e-3)
