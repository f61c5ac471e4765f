"""The tables of the demo boats are what their scripts write, and differ only where they should."""

import pytest
from tests.lines.tables import boat
from tools import write_bittern_lines, write_grebe_lines


@pytest.mark.parametrize("name", ["bittern", "bittern-as-bought"])
def test_bittern(name: str) -> None:
    assert boat(name) == write_bittern_lines.lines()


def test_grebe_and_the_one_figure_that_slipped() -> None:
    right, bought = boat("grebe"), boat("grebe-as-bought")
    assert right == write_grebe_lines.lines()
    differing = [(a, b) for a, b in zip(right.split(","), bought.split(","), strict=True) if a != b]
    assert differing == [("59.8", "5.98")]
