"""Doubts: slips are put into fair tables, and must come out again; fair tables raise none.

There is no outside source for what a slip looks like; the tables are closed forms or the demo
boats, and what was put in is known.
"""

import math
import re

import numpy as np
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from scipy.interpolate import CubicSpline
from tests.in_words import in_words
from tests.lines.tables import boat, offsets, points, radii, wigley_half_breadth

from trimdive.errors import GeometryError
from trimdive.geometry.lines import doubts, loft, mended, read_table
from trimdive.geometry.lines.batten import by_the_others, stiffness, strain
from trimdive.geometry.lines.forms import SUBOFF_END, suboff_radius
from trimdive.geometry.lines.slips import slips


def _wigley(digits: int = 1) -> str:
    x, z = np.linspace(0.0, 1.0, 13), np.linspace(0.0, 0.0625, 7)
    rows = offsets(x, z, wigley_half_breadth).splitlines()
    kept = [rows[0].removesuffix(",knuckles")]
    for row in rows[1:]:
        kept.append(",".join(f"{float(c):.{digits}f}" for c in row.split(",")[:-1]))
    return "\n".join([*kept, ""])


def _suboff() -> str:
    x = SUBOFF_END / 2.0 * (1.0 - np.cos(np.linspace(0.0, np.pi, 21)))
    r = suboff_radius(x)
    r[[0, -1]] = 0.0
    rows = radii(x * 0.3048, r * 0.3048).splitlines()
    tidy = [",".join(f"{float(c):.1f}" for c in row.split(",")) for row in rows[1:]]
    return "\n".join([rows[0], *tidy, ""])


def _as_points(name: str) -> str:
    """Return the sections of a demo boat as a table of points, unequal in number."""
    sections: list[tuple[float, list[tuple[float, float]]]] = []
    for at, section in enumerate(read_table(boat(name), name).stations):
        run = section.points
        if len(run) > 16:
            keep = np.unique(np.linspace(0, len(run) - 1, 12 + at % 3).round().astype(int))
            run = run[keep]
        sections.append((section.x, [(round(y, 4), round(z, 4)) for y, z in run.tolist()]))
    return points(sections)


FAIR = {
    "bittern": boat("bittern"),
    "grebe": boat("grebe"),
    "wigley": _wigley(),
    "suboff": _suboff(),
    "bittern points": _as_points("bittern"),
    "grebe points": _as_points("grebe"),
}


@pytest.mark.parametrize("name", list(FAIR))
def test_fair_tables_raise_no_doubt(name: str) -> None:
    assert doubts(read_table(FAIR[name], name)) == ()


def test_grebe_as_bought_in_the_words_that_the_builder_reads() -> None:
    table = read_table(boat("grebe-as-bought"), "lines.csv")
    found = doubts(table)
    assert [in_words(doubt.what) for doubt in found] == [
        "station 650, height 60 mm: 5.98 lies 53 mm inside its neighbours; 59.8?"
    ]
    assert found[0].where == "lines.csv:10"
    right = read_table(boat("grebe"), "lines.csv")
    assert np.array_equal(mended(table, found[0]).figures, right.figures, equal_nan=True)


@pytest.mark.parametrize(
    ("name", "right", "wrong", "says"),
    [
        ("bittern", "460,18,114,90", "460,18,114,9.0", "station 460, the half-breadth: 9.0 .*; 90"),
        ("bittern", "690,3,106,105", "690,3,106,1050", "outside its neighbours; 105?"),
        ("bittern", "460,18,", "460,81,", "the keel: 81 lies .* above its neighbours; 18"),
        ("bittern", "0,128,", "0,12.8,", "station 0, the keel: 12.8 lies .* below"),
        ("bittern", "230,60,132", "230,132,60", "132 and 60 .* swapped"),
        ("bittern", "1610,0", "161,0", "station 161 is after 1380 and out of order; 1610"),
        ("bittern", "2300,66", "23000,66", "station 23000 lies .*; 2300"),
        ("bittern", "1380,0", "1830,0", "station 1830 is after .*; 1380"),
        ("grebe", "54.9,58.8,58.4", "54.9,588,58.4", "height 60 mm: 588 lies .* outside .*; 58.8"),
        ("grebe", "54.9,58.8,58.4", "45.9,58.8,58.4", "height 40 mm: 45.9 lies .*; 54.9"),
        ("grebe", "32.8,43.7,54.9", "32.8,54.9,43.7", "height 20 mm: are 54.9 and 43.7 .height 40"),
        ("grebe", "1235,20", "12350,20", "station 12350 is after 1170.*; 1235"),
        ("suboff", "2851.1,254.0", "2851.1,25.4", "the radius: 25.4 lies 229 mm inside"),
        ("wigley", "500.0,0.0,15.3", "500.0,0.0,1.53", "station 500.0, .* 1.53 lies .*; 15.3"),
    ],
)
def test_one_slip_is_found_and_mended(name: str, right: str, wrong: str, says: str) -> None:
    assert FAIR[name].count("\n" + right) + FAIR[name].count("," + right) == 1
    table = read_table(FAIR[name].replace(right, wrong), name)
    (doubt,) = doubts(table)
    assert re.search(says, in_words(doubt.what)), in_words(doubt.what)
    fair = read_table(FAIR[name], name)
    assert mended(table, doubt).figures == pytest.approx(fair.figures, nan_ok=True)


def test_height_of_a_point_that_slipped_or_stands_under_the_wrong_head() -> None:
    fair = read_table(FAIR["grebe points"], "p")
    row = next(r for r, c in enumerate(fair.cells) if c[0] == "780.00000" and c[2] == "60.00000")
    lines = FAIR["grebe points"].splitlines()
    for wrong, says in (("58.8,6.0", "half-breadth 58.8 mm: 6.0 lies"), ("58.8,600", "600 lies")):
        slipped = [*lines]
        slipped[fair.rows[row] - 1] = f"780.00000,{wrong}"
        (doubt,) = doubts(read_table("\n".join(slipped), "p"))
        assert says in in_words(doubt.what)
        assert float(doubt.likely) == 60.0


@settings(max_examples=60)
@given(data=st.data())
def test_any_slipped_decimal_point_amidships_is_found(data: st.DataObject) -> None:
    """Near the ends, where lines turn quickly, a slip may pass for shape; amidships it may not."""
    name = data.draw(st.sampled_from(["bittern", "grebe", "wigley"]))
    lines = FAIR[name].splitlines()
    fair = read_table(FAIR[name], name)
    row = len(fair.rows) // 2 + data.draw(st.integers(-1, 1))
    cells = list(fair.cells[row])
    heads = [column.word for column in fair.columns]
    breadths = [k for k in range(1, len(cells)) if heads[k] != "power" and float(cells[k] or 0) > 9]
    column = data.draw(st.sampled_from(breadths))
    meant = float(cells[column])
    cells[column] = data.draw(st.sampled_from(slips(cells[column])[:2]))
    lines[fair.rows[row] - 1] = ",".join(cells)
    found = doubts(read_table("\n".join(lines), name))
    assert [float(doubt.likely) for doubt in found] == [meant]
    assert found[0].where == f"{name}:{fair.rows[row]}"


@settings(max_examples=60)
@given(
    stations=st.integers(7, 25),
    heights=st.integers(4, 12),
    fullness=st.floats(0.4, 2.0),
    rise=st.floats(0.2, 2.0),
    forward=st.floats(-0.2, 0.2),
    breadth=st.floats(0.02, 0.3),
)
@example(stations=9, heights=5, fullness=1.5, rise=0.875, forward=0.03125, breadth=0.02)
def test_smooth_hulls_raise_no_doubt(
    stations: int, heights: int, fullness: float, rise: float, forward: float, breadth: float
) -> None:
    def half(x: float, z: float) -> float:
        along = math.sin(math.pi * (0.03 + 0.94 * x)) ** fullness * (1.0 + forward * (x - 0.5))
        return breadth * along * (0.1 + 0.9 * (z / 0.1) ** rise) if z > 0.0 else 0.0

    text = offsets(np.linspace(0.0, 1.2, stations) / 1.2, np.linspace(0.0, 0.1, heights), half)
    rows = [row.rsplit(",", 1)[0].split(",") for row in text.splitlines()]
    tidy = [",".join(f"{float(c):.1f}" for c in row) for row in rows[1:]]
    assert doubts(read_table("\n".join([",".join(rows[0]), *tidy]), "smooth")) == ()


@pytest.mark.parametrize(("a", "b"), [("10", "20"), ("5", "10"), ("100", "115")])
def test_swapped_heads_of_columns(a: str, b: str) -> None:
    fair = FAIR["grebe"]
    wrong = fair.replace(f",{a},{b},", f",{b},{a},")
    table = read_table(wrong, "g")
    (doubt,) = doubts(table)
    assert f"columns {a} and {b} swapped" in in_words(doubt.what)
    assert doubt.where == "g:2"
    right = read_table(fair, "g").stations
    for ours, theirs in zip(mended(table, doubt).stations, right, strict=True):
        assert ours.points == pytest.approx(theirs.points)


def test_two_slips_are_both_found() -> None:
    text = FAIR["grebe"].replace("55.8,59.8,", "55.8,5.98,").replace("910,0,22.2", "910,0,222")
    found = doubts(read_table(text, "g"))
    assert sorted(doubt.likely for doubt in found) == ["22.2", "59.8"]


def test_out_of_order_without_an_explanation_is_said_and_lofted_in_order() -> None:
    rows = FAIR["bittern"].splitlines()
    rows[5], rows[6] = rows[6], rows[5]
    table = read_table("\n".join(rows), "b")
    (doubt,) = doubts(table)
    assert "out of order" in in_words(doubt.what)
    assert doubt.changes == ()
    straight = loft(read_table(FAIR["bittern"], "b"))
    assert np.array_equal(loft(table).vertices, straight.vertices)


@pytest.mark.parametrize("name", ["bittern points", "grebe points"])
@pytest.mark.parametrize("at", [2, 4, 6])
def test_points_in_each_others_place_are_named_as_such(name: str, at: int) -> None:
    fair = read_table(FAIR[name], "p")
    section = fair.stations[len(fair.stations) // 2]
    first = fair.rows.index(section.row)
    a, b = fair.rows[first + at - 1] - 1, fair.rows[first + at] - 1
    lines = FAIR[name].splitlines()
    lines[a], lines[b] = lines[b], lines[a]
    table = read_table("\n".join(lines), "p")
    (doubt,) = doubts(table)
    assert f"points {at} and {at + 1} (" in in_words(doubt.what)
    assert in_words(doubt.what).endswith("swapped?")
    assert mended(table, doubt).text == "\n".join([*FAIR[name].splitlines(), ""])


def test_a_section_that_cannot_be_lofted_names_the_likely_figure() -> None:
    text = FAIR["bittern points"]
    table = read_table(text, "p")
    section = table.stations[6]
    row = table.rows.index(section.row) + 4
    y, z = table.cells[row][1:]
    lines = text.splitlines()
    lines[table.rows[row] - 1] = f"{table.cells[row][0]},{y},{float(z) * 10:g}"
    with pytest.raises(GeometryError, match=rf"In p:\d+ .* is likely meant as {float(z):g}\."):
        loft(read_table("\n".join(lines), "p"))


@pytest.mark.parametrize(
    ("typed", "meant"),
    [("5.98", "59.8"), ("598", "59.8"), ("95.8", "59.8"), ("5,98", "59,8"), ("12.05", "10.25")],
)
def test_common_slips(typed: str, meant: str) -> None:
    assert meant in slips(typed)


@pytest.mark.parametrize("typed", ["", "0", "wide", "0.0"])
def test_no_slip_explains_nothing(typed: str) -> None:
    assert slips(typed) == ()


def test_a_table_that_nobody_measured_by_hand_is_taken_as_it_is() -> None:
    """1 200 stations of a smooth hull come from a program."""
    heights = [10.0 * k for k in range(1, 9)]
    head = ",".join(["x mm", "keel", *(f"{z:g}" for z in heights)])
    rows = [
        ",".join([f"{x}", "0", *(f"{20 + 60 * (x / 1199) * (1 - x / 1199):.3f}" for _ in heights)])
        for x in range(1200)
    ]
    table = read_table("\n".join([head, *rows]), "long")
    assert len(table.rows) * len(table.columns) > 10_000
    assert doubts(table) == ()


def test_a_slip_in_a_table_of_216_stations_is_found() -> None:
    """The half-breadth of one of 2 160 is ten times too small."""
    rows = ["x mm,keel," + ",".join(f"{z}" for z in range(10, 110, 10)) + ",deck,deck half"]
    for k in range(216):
        u = 2 * k / 215 - 1
        y = [60 * (1 - u**4) * ((z + 5) / 110) ** 0.5 for z in range(10, 110, 10)]
        cells = [f"{v:.2f}" for v in y]
        if k == 100:
            cells[4] = f"{y[4] / 10:.2f}"
        rows.append(f"{k * 5},0,{','.join(cells)},110,{50 * (1 - u**4):.2f}")
    found = doubts(read_table("\n".join(rows), "long"))
    assert [one.where for one in found] == ["long:102"]


def test_strain_of_a_batten_is_that_of_a_natural_spline() -> None:
    """∫ y''² dx of scipy's natural cubic spline, by its own coefficients."""
    random = np.random.default_rng(5)
    x = np.cumsum(random.uniform(0.05, 0.2, 60))
    v = random.normal(size=60)
    bend = CubicSpline(x, v, bc_type="natural").derivative(2)
    a, b = bend(x[:-1]), bend(x[1:])
    energy = float((np.diff(x) * (a * a + a * b + b * b) / 3).sum())
    assert strain(x, v) == pytest.approx(energy, rel=1e-9)
    assert float(v @ stiffness(x) @ v) == pytest.approx(energy, rel=1e-9)


def test_a_pin_left_free_settles_where_the_others_have_it() -> None:
    """Against scipy's natural spline through all the others."""
    random = np.random.default_rng(6)
    x, v = np.cumsum(random.uniform(0.05, 0.2, 30)), random.normal(size=30)
    settled, strains = by_the_others(x, v)
    for k in (1, 7, 28):
        others = CubicSpline(np.delete(x, k), np.delete(v, k), bc_type="natural")
        assert settled[k] == pytest.approx(float(others(x[k])), rel=1e-9)
        without = strain(np.delete(x, k), np.delete(v, k))
        assert strains[k] == pytest.approx(strain(x, v) - without, rel=1e-9)
