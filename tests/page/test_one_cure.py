"""A button does one thing, and its sentence says that; what the builder does is not called done."""

import re
from pathlib import Path

import pytest
from tests.cli.boats import NAMES
from tests.page.conftest import BOATS, Page, page_of

from trimdive.page.rows import Row, causes
from trimdive.page.shown import name_of
from trimdive.text.found import entered

TWO = re.compile(r"[;,]? or\b")  # of two cures in one sentence
BUILDERS = re.compile(r"\b(if|unless|test|try|weigh|measure|drill two|fill it)\b", re.IGNORECASE)


def rows_of(page: Page) -> list[Row]:
    """Return every row of what is not in order, on the bench too."""
    her = page.desk.her
    heads = [*causes(her.boat, her.findings), *causes(her.boat, her.bench_findings)]
    return [row for head in heads for row in (head, *head.along)]


@pytest.mark.parametrize("name", NAMES)
def test_a_button_does_one_thing(name: str) -> None:
    page = page_of(BOATS / name / "boat.toml").enter()
    told = [row.mend for row in rows_of(page) if row.is_doable]
    assert not [one for one in told if TWO.search(one)]


@pytest.mark.parametrize("name", NAMES)
def test_what_the_builder_does_is_not_called_done(name: str) -> None:
    her = page_of(BOATS / name / "boat.toml").desk.her
    done = [entered(her.boat, one) for one in (*her.findings, *her.bench_findings) if one.edits]
    assert not [one for one in done if BUILDERS.search(one)]


def test_a_failsafe_is_set_by_the_builder_and_then_entered() -> None:
    page = page_of(BOATS / "bittern-as-bought" / "boat.toml").enter()
    row = next(one for one in rows_of(page) if one.name.startswith("failsafe-told/"))
    assert row.mend == "Set it on her failsafe and test it, transmitter off; then enter it."
    assert not row.is_doable
    assert row.door is not None
    assert row.door.sends == "edit failsafe"
    html = page.client.get("/bench").text
    assert f'value="entry edit failsafe" aria-label="{row.door.name}: {row.what}"' in html


def test_a_drilled_hole_is_entered_not_done(tmp_path: Path) -> None:
    file = tmp_path / "boat.toml"
    file.write_text((BOATS / "bittern-as-bought" / "boat.toml").read_text())
    for one in (BOATS / "bittern-as-bought").glob("*.csv"):
        (tmp_path / one.name).write_text(one.read_text())
    page = page_of(file).enter()
    found = next(one for one in page.desk.her.findings if one.key == "void-above")
    page.press(f"do {name_of(found)}")
    says = page.desk.steps[-1].says
    assert says == "winch house entered as drilled, low and at its highest point"
