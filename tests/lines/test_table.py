"""Reading tables of lines: the four layouts, and what is said of bad ones."""

import math

import numpy as np
import pytest
from tests.lines.tables import boat

from trimdive.errors import BoatFileError, GeometryError, TrimdiveError
from trimdive.geometry.lines import read_table

OFFSETS = """# a small hull
x mm,keel,10,20,deck,deck half
0,5,3,4,40,2
100,0,20,25,40,10
200,0,22,27,40,11
300,4,4,5,41,2
"""


def test_offsets_become_sections_from_keel_to_deck_centre() -> None:
    table = read_table(OFFSETS, "small.csv")
    section = table.stations[1]
    assert table.layout == "offsets"
    expected = [(0, 0), (0.02, 0.01), (0.025, 0.02), (0.01, 0.04), (0, 0.04)]
    assert section.points == pytest.approx(np.array(expected))
    assert [(line.name, line.point, line.sharp) for line in section.lines] == [
        ("deck edge", 3, True)
    ]
    assert (section.x, section.row) == (0.1, 4)


def test_an_empty_cell_means_that_the_hull_is_not_there() -> None:
    table = read_table(OFFSETS.replace("0,5,3,4", "0,15,,4"), "small.csv")
    expected = [(0, 0.015), (0.004, 0.02), (0.002, 0.04), (0, 0.04)]
    assert table.stations[0].points == pytest.approx(np.array(expected))


def test_points_with_a_named_knuckle_and_any_number_of_points() -> None:
    text = """x in,y,z,knuckle
    0,0,1,
    0,1,2,
    4,0,0,
    4,2,0.5,chine
    4,2.5,2,
    4,2.5,3,
    8,0,0,
    8,1,0.5,Chine
    8,1.5,3,
    """
    table = read_table(text, "points.csv")
    assert table.layout == "points"
    assert [len(s.points) for s in table.stations] == [3, 5, 4]  # the tops are closed straight
    assert table.stations[1].x == pytest.approx(0.1016)  # 4 in of 25.4 mm, by definition
    assert "chine" in [line.name for line in table.stations[2].lines]


def test_the_edge_of_a_level_deck_is_sharp_without_being_marked() -> None:
    rows = "".join(f"{x},0,0\n{x},3,1\n{x},2,4\n{x},0,4\n" for x in (0, 5, 9))
    section = read_table("x in,y,z\n" + rows, "points.csv").stations[1]
    assert [(line.name, line.point, line.sharp) for line in section.lines] == [
        ("deck edge", 2, True)
    ]


def test_a_flat_keel_and_a_deck_that_are_left_open_are_closed_straight() -> None:
    text = "x m,y,z\n" + "".join(f"{x},0.5,0\n{x},0.5,1\n" for x in (0, 1, 2))
    section = read_table(text, "box.csv").stations[0]
    assert section.points == pytest.approx(np.array([(0, 0), (0.5, 0), (0.5, 1), (0, 1)]))
    assert section.half_area == pytest.approx(0.5)
    assert [line.name for line in section.lines] == ["keel edge", "deck edge"]


def test_section_figures_follow_their_formulas() -> None:
    """(y/b)^p + ((zm − z)/(zm − zk))^p = 1 below; a quarter of an ellipse above."""
    table = read_table(boat("bittern"), "lines.csv")
    section = table.stations[6]  # x 1150: keel 0, widest 104, b 112, deck 206, half 62
    y, z = section.points.T
    low = z < 0.104
    assert (y[low] / 0.112) ** 2.2 + ((0.104 - z[low]) / 0.104) ** 2.2 == pytest.approx(1.0)
    top = (z > 0.104) & (y > 0.0)
    assert ((y[top] - 0.062) / 0.05) ** 2 + ((z[top] - 0.104) / 0.102) ** 2 == pytest.approx(1.0)
    assert section.breadth == 0.112


def test_radii_stand_on_the_keel_line_unless_the_axis_is_given() -> None:
    text = "x mm,radius\n0,0\n100,46\n200,30\n"
    assert read_table(text, "r.csv").stations[1].points[0, 1] == pytest.approx(0.0)
    text = "x mm,radius,axis\n0,0,46\n100,46,46\n200,30,50\n"
    assert read_table(text, "r.csv").stations[2].points[0, 1] == pytest.approx(0.020)


@pytest.mark.parametrize(
    "text",
    [
        OFFSETS.replace(",", ";").replace("20;25", "20,0;25,0"),
        OFFSETS.replace(",", "\t"),
        "\ufeff" + OFFSETS,
        OFFSETS.replace("\n", "\r\n"),
        OFFSETS.replace("x mm", "x [mm]").replace("deck,", "Deck (mm),"),
    ],
)
def test_other_ways_of_writing_the_same_table(text: str) -> None:
    plain, other = read_table(OFFSETS, "a"), read_table(text, "b")
    for a, b in zip(plain.stations, other.stations, strict=True):
        assert b.points == pytest.approx(a.points)


BOX = "x mm,y,z\n" + "".join(f"{x},10,0\n{x},10,20\n" for x in (0, 50, 100))


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "t.csv: the table is empty"),
        (OFFSETS.replace("x mm", "x"), "t.csv:2: .*in which unit"),
        (OFFSETS.replace("x mm", "x knots"), "t.csv:2: 'knots' is not a unit of length"),
        (OFFSETS.replace("20,25", "2o,25"), "t.csv:4: '2o' under '10' is not a number"),
        (OFFSETS.replace("20,25", "nan,25"), "t.csv:4: 'nan'"),
        (OFFSETS.replace("100,0,20,25,40,10", "100,,20,25,40,10"), "t.csv:4: .*'keel' is missing"),
        (OFFSETS.replace("100,0,20", "100,0,-20"), "t.csv:4: '10' is negative"),
        (OFFSETS.replace("200,0", "100,0"), "t.csv:5: the station at 100 mm stands twice.*line 4"),
        ("\n".join(OFFSETS.splitlines()[:4]), "t.csv: there are only 2 stations"),
        (OFFSETS.replace("deck half", "dack half"), "t.csv:2: 'dack half' is not the head"),
        (OFFSETS.replace("20,deck", "10,deck"), "t.csv:2: there are two columns '10'"),
        (OFFSETS.replace("25,40,10", "25,40,10,9"), "t.csv:4: this row has 7 cells"),
        ("x mm,y\n0,1\n1,1\n2,1\n", "t.csv:1: the header is none of the four layouts"),
        (BOX.replace("50,10,0", "50,-10,0"), "t.csv:4: 'y' is negative"),
        (BOX.replace("100,", "0,"), "t.csv:6: the station at 0 mm stands twice"),
    ],
)
def test_what_is_said_of_a_bad_table(text: str, says: str) -> None:
    with pytest.raises(TrimdiveError, match=says) as caught:
        read_table(text, "t.csv")
    assert isinstance(caught.value, BoatFileError | GeometryError)
    assert "\n" not in str(caught.value)


def test_figures_are_in_metres_and_empty_cells_are_not_a_number() -> None:
    table = read_table(OFFSETS.replace("0,5,3,4", "0,15,,4"), "small.csv")
    assert table.figures[1].tolist() == pytest.approx([0.1, 0.0, 0.02, 0.025, 0.04, 0.01])
    assert math.isnan(table.figures[0, 2])
