"""Full-size sheets: printed pages measured, DXF read again by ezdxf, SVG by its own size.

Pages are rendered by poppler at 600 dpi, as a printer would.
"""

import io
import re
import subprocess
from pathlib import Path

import ezdxf
import numpy as np
import pikepdf
import pytest
from PIL import Image

from trimdive.assessment import Assessment
from trimdive.patterns.sections import shell
from trimdive.sheets.fullsize import (
    BOTTOM,
    EDGE,
    LEFT,
    PAPERS,
    TOP,
    Shape,
    Stretch,
    dxf,
    pdf,
    shape_of,
    svg,
)
from trimdive.text.say import Say

DPI = 600
DOT = 25.4 / DPI  # [mm]


@pytest.fixture(scope="module")
def shapes(bittern: Assessment) -> list[Shape]:
    """Return the shell boards of Bittern at a station; they take a sheet each."""
    say = Say(bittern.boat)
    return [shape_of(say, one) for one in shell(bittern.boat, bittern.hull, 0.7, 0.001)]


def page(data: bytes, number: int, folder: Path) -> np.ndarray:
    """Return a page as a printer sees it: which dots are black."""
    (folder / "sheet.pdf").write_bytes(data)
    asked = ["pdftoppm", "-r", str(DPI), "-gray", "-f", str(number), "-l", str(number)]
    subprocess.run([*asked, "sheet.pdf", "page"], cwd=folder, check=True)
    (found,) = folder.glob("page*.pgm")
    return np.asarray(Image.open(found)) < 128


def middles(row: np.ndarray) -> np.ndarray:
    """Return the middle of each run of black dots [mm]."""
    edges = np.flatnonzero(np.diff(np.concatenate([[False], row, [False]]).astype(int)))
    return (edges[::2] + edges[1::2]) / 2 * DOT


@pytest.mark.parametrize("pull", [Stretch(), Stretch(along=0.99, up=1.02)])
def test_the_rulers_measure_a_hundred_millimetres(
    shapes: list[Shape], tmp_path: Path, pull: Stretch
) -> None:
    """Middle of the first tick to middle of the last; what the printer does is taken out before."""
    dark = page(pdf(shapes, "t", "m", "a4", pull), 1, tmp_path)
    tall, wide = dark.shape
    below = PAPERS["a4"][1] - BOTTOM  # the sheet lies across
    ticks = middles(dark[round((below + 3.9) / DOT), : round((LEFT + 104) / DOT)])
    marks = middles(dark[: round((TOP + 104) / DOT), round(4.9 / DOT)])
    marks = marks[marks > TOP - 1.0]
    assert len(ticks) == len(marks) == 11
    assert ticks[-1] - ticks[0] == pytest.approx(100.0 / pull.along, abs=0.05)
    assert marks[-1] - marks[0] == pytest.approx(100.0 / pull.up, abs=0.05)
    assert (wide * DOT, tall * DOT) == pytest.approx((297.0, 210.0), abs=DOT)


def test_the_board_is_printed_in_its_true_size(shapes: list[Shape], tmp_path: Path) -> None:
    """Its outer edges, middle of line to middle of line; the hull's own curve a pixel's worth."""
    low, high = 1e3 * shapes[0].pattern.bounds
    dark = page(pdf(shapes, "t", "m"), 1, tmp_path)
    foot = round((TOP + EDGE + high[1] - low[1] - 5.0) / DOT)  # across the board, under her keel
    across = middles(dark[foot, round((LEFT + 1) / DOT) : round((LEFT + 275) / DOT)])
    side = round((LEFT + EDGE + 5.0) / DOT)  # up the board, beside her
    up = middles(dark[round((TOP + 1) / DOT) : round((TOP + 175) / DOT), side])
    assert across[-1] - across[0] == pytest.approx(high[0] - low[0], abs=0.05)
    assert up[-1] - up[0] == pytest.approx(high[1] - low[1], abs=0.05)


def test_the_pdf_is_tagged_and_asks_for_its_actual_size(shapes: list[Shape]) -> None:
    with pikepdf.open(io.BytesIO(pdf(shapes, "Patterns", "m", "letter"))) as document:
        assert document.Root.ViewerPreferences.PrintScaling == "/None"
        assert document.Root.MarkInfo.Marked


def test_dxf_closes_has_no_error_and_is_as_large_as_the_board(
    shapes: list[Shape], tmp_path: Path
) -> None:
    (tmp_path / "p.dxf").write_text(dxf(shapes), "utf-8")
    document = ezdxf.readfile(tmp_path / "p.dxf")
    assert not document.audit().errors
    lines = document.modelspace().query('LWPOLYLINE[layer=="CUT"]')
    assert all(one.closed for one in lines)
    first = np.array([point[:2] for point in lines[0]])
    low, high = 1e3 * shapes[0].pattern.bounds
    assert np.ptp(first, axis=0) == pytest.approx(high - low, abs=0.01)
    assert document.units == ezdxf.units.MM


def test_svg_says_its_size_in_millimetres(shapes: list[Shape]) -> None:
    low, high = 1e3 * shapes[0].pattern.bounds
    found = re.search(
        r'width="([\d.]+)mm" height="([\d.]+)mm" viewBox="0 0 ([\d.]+) ([\d.]+)"', svg(shapes[0])
    )
    assert found
    wide, tall, *box = (float(one) for one in found.groups())
    assert (wide, tall) == pytest.approx(tuple(high - low + 8.0), abs=0.01)
    assert box == [wide, tall]
