"""Every table shown in docs/lines.md is read and lofted."""

import re
from pathlib import Path

import pytest
from tests.lines.tables import assert_closed

from trimdive.geometry.lines import doubts, loft, read_table

TEXT = (Path(__file__).parents[2] / "docs" / "lines.md").read_text("utf-8")
TABLES = re.findall(r"```csv\n(.*?)```", TEXT, flags=re.DOTALL)


def test_all_four_layouts_are_shown() -> None:
    layouts = {read_table(table, "docs").layout for table in TABLES}
    assert layouts == {"offsets", "points", "figures", "radii"}


@pytest.mark.parametrize("table", TABLES)
def test_tables_shown_are_good(table: str) -> None:
    read = read_table(table, "docs")
    assert doubts(read) == ()
    assert_closed(loft(read))
