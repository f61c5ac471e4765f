"""The measuring sheet on paper: read back by general tools."""

import re
import shutil
import subprocess
from pathlib import Path

import pytest
from typer.testing import CliRunner

from trimdive.boatfile import Cylinder, Part
from trimdive.boatfile.outline import BreadthRow, Outlined, ProfileRow, SectionRow
from trimdive.cli.app import app
from trimdive.estimates.tape.typed import GIRTH, MOULDING, STANDING, TOP
from trimdive.sheets import measuring_sheet

RUN = CliRunner()
needs_poppler = pytest.mark.skipif(not shutil.which("pdftotext"), reason="poppler is not there")
SIZES = {"a4": (210.0, 297.0), "letter": (8.5 * 25.4, 11 * 25.4)}  # ISO 216; ANSI A [mm]


@pytest.fixture(scope="module", params=["a4", "letter"])
def sheet(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return the sheet on one of the papers, as the command writes it."""
    file = tmp_path_factory.mktemp("sheet") / f"{request.param}.pdf"
    answer = RUN.invoke(app, ["sheet", str(file), "--paper", request.param])
    assert answer.exit_code == 0, answer.output
    return file


def drawn_by(tool: str, file: Path, *more: str) -> str:
    done = subprocess.run([tool, str(file), *more], capture_output=True, text=True, check=True)
    return done.stdout


@needs_poppler
def test_every_field_of_a_tape_file_is_a_row_or_a_column(sheet: Path) -> None:
    words = set(re.findall(r"[a-z_]+", drawn_by("pdftotext", sheet, "-layout", "-")))
    wanted = {*TOP, *GIRTH, *MOULDING, *STANDING} - {"units", "density", "top"}
    assert wanted <= words


@needs_poppler
def test_fields_of_the_boat_file_are_its_fields(sheet: Path) -> None:
    page = drawn_by("pdftotext", sheet, "-layout", "-f", "2", "-l", "2", "-")
    words = set(re.findall(r"[a-z_]+", page))
    for model, shown in (
        (Cylinder, {"outside", "wall", "length", "x", "z"}),
        (Part, {"name", "mass", "hung", "x", "y", "z", "inside"}),
        (ProfileRow, {"x", "keel", "deck"}),
        (BreadthRow, {"x", "breadth", "widest"}),
        (SectionRow, {"x", "shape", "radius"}),
        (Outlined, {"breadth", "height", "profile", "breadths", "section"}),
    ):
        assert shown <= set(model.model_fields)
        assert shown <= words


@needs_poppler
def test_two_tagged_pages_of_the_right_size(sheet: Path) -> None:
    answer = dict(
        re.findall(r"^(\w[\w ]*):\s+(.*)$", drawn_by("pdfinfo", sheet), flags=re.MULTILINE)
    )
    assert answer["Pages"] == "2"
    assert answer["Tagged"] == "yes"
    assert answer["Title"] == "Measuring sheet"
    wide, high = (float(one) * 25.4 / 72 for one in re.findall(r"[\d.]+", answer["Page size"])[:2])
    assert (wide, high) == pytest.approx(SIZES[sheet.stem], abs=0.1)


@needs_poppler
def test_only_the_shipped_font_is_in_it(sheet: Path) -> None:
    rows = drawn_by("pdffonts", sheet).splitlines()[2:]
    assert rows
    assert all("DejaVuSans" in row and " yes " in row for row in rows)


@needs_poppler
def test_nothing_is_printed_beyond_the_margin(sheet: Path, tmp_path: Path) -> None:
    subprocess.run(
        ["pdftoppm", "-r", "30", "-gray", str(sheet), str(tmp_path / "page")], check=True
    )
    pages = sorted(tmp_path.glob("page*.pgm"))
    assert len(pages) == 2
    for page in pages:
        head, size, _, rest = page.read_bytes().split(b"\n", 3)
        assert head == b"P5"
        wide, high = map(int, size.split())
        rows = [rest[k * wide : (k + 1) * wide] for k in range(high)]
        margin = 10  # 8.5 mm at 30 dots an inch
        assert min(min(row[:margin] + row[-margin:]) for row in rows) == 255
        assert min(min(row) for row in rows[:margin] + rows[-margin:]) == 255
        assert min(min(row) for row in rows) < 100  # and something is printed


def test_units_are_printed_where_asked_for() -> None:
    assert measuring_sheet("a4", "inches") != measuring_sheet("a4", "")


def test_refusals(tmp_path: Path) -> None:
    file = tmp_path / "sheet.pdf"
    file.write_text("mine", "utf-8")
    for said, what in (
        ([str(file)], "there is such a file already"),
        (
            [str(tmp_path / "b.pdf"), "--paper", "a5"],
            "'a5' is not a paper size. Write a4 or letter.",
        ),
        ([str(tmp_path / "b.pdf"), "--units", "cubits"], "'cubits' is no choice"),
        ([str(tmp_path / "none" / "b.pdf")], "no such file or directory"),
    ):
        answer = RUN.invoke(app, ["sheet", *said])
        assert answer.exit_code == 2
        assert what in " ".join(answer.output.split())
    assert file.read_text("utf-8") == "mine"
