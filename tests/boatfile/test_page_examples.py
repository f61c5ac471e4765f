"""What docs/boat-file.md shows of `by_ends` and `offcut` is read as it stands there."""

import re
from pathlib import Path

import pytest

from trimdive.boatfile import parse

PAGE = (Path(__file__).parents[2] / "docs" / "boat-file.md").read_text("utf-8")
HEAD = 'format = 1\nname = "Trial"\n[[part]]\nname = "rod"\nz = "9 mm"\n'


def test_weighed_by_its_ends() -> None:
    (shown,) = re.findall(r"^by_ends = .*$", PAGE, re.MULTILINE)
    (part,) = parse(f'{HEAD}volume = "100 ml"\n{shown}\n').parts
    assert part.mass == pytest.approx(0.78)
    assert part.x == pytest.approx((0.41 * 0.12 + 0.37 * 0.86) / 0.78)


def test_density_of_an_offcut() -> None:
    (shown,) = re.findall(r"^offcut = .*$", PAGE, re.MULTILINE)
    (part,) = parse(f'{HEAD}mass = "90 g"\nx = "5 mm"\n{shown}\n').parts
    assert part.density == pytest.approx(1610, abs=5)  # 18.2/(18.2 - 6.9)
