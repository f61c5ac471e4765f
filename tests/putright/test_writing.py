"""Changes written into a boat file: as each piece is given, comments kept, nothing else moved."""

from dataclasses import replace

import pytest

from trimdive.boatfile import parse
from trimdive.edits.writing import quantity, rewritten
from trimdive.findings import Edit

FILE = """\
format = 1
name = "Whinchat"
length = "900 mm"
measured_from = "bow"

[units]
length = "in"
mass = "oz"

[waterline]
height = "3 in"

[[region]]
name = "hull"
surface = "prism"
outline = "box"
x_aft = "900 mm"
x_fore = "0 mm"
breadth = "5 in"
z_bottom = "0 in"
z_top = "5 in"
thickness = "2 mm"
material = "GRP"

[[mark]]
name = "frame 5"
x = "400 mm"

[[part]]
name = "battery"   # the new one
mass = "500 g"
known = "weighed"
x_fore = "200 mm"   # from the stem
z_bottom = "10 mm"
shape = "box"
length = "100 mm"
breadth = "40 mm"
height = "30 mm"

[[part]]
name = "pump"
mass = "80 g"
from = "frame 5"
volume = "40 cm3"
x = "25 mm"
z = "1 in"

# lead in the keel
[[lead]]
name = "pig"
mass = "250 g"
from = "stern"
x = "300 mm"
z = "10 mm"
shape = "box"
length = "90 mm"
breadth = "30 mm"
height = "8 mm"

[[foam]]
name = "block"
volume = "120 cm3"
x = "450 mm"
z = "60 mm"
y = "30 mm"
pair = "both"
"""


def changed(*edits: Edit) -> str:
    return rewritten(FILE, edits, {})


def test_a_place_is_written_as_the_piece_is_given() -> None:
    """Boat measured from the bow, battery by its fore end, in inches: 30 mm aft is 30 mm more."""
    boat = parse(FILE)
    x, z = boat.parts[0].x, boat.parts[0].z
    assert (x, z) == pytest.approx((0.650, 0.025))
    fields = (("x", x - 0.030), ("z", z + 0.0127))
    text = changed(Edit(action="set", path="part[1]", fields=fields))
    after = parse(text).parts[0]
    assert (after.x, after.z) == pytest.approx((x - 0.030, z + 0.0127), abs=1e-4)
    assert 'x_fore = "9.055 in"   # from the stem' in text
    assert 'z_bottom = "0.894 in"' in text


def test_a_place_from_a_mark() -> None:
    boat = parse(FILE)
    x = boat.parts[1].x
    assert x == pytest.approx(0.525)  # mark 500 mm from the stern, and 25 mm forward of it
    text = changed(Edit(action="set", path="part[2]", fields=(("x", x + 0.0254),)))
    assert parse(text).parts[1].x == pytest.approx(x + 0.0254, abs=1e-4)
    assert 'x = "1.984 in"' in text


def test_lead_is_cut_and_keeps_its_middle() -> None:
    text = changed(Edit(action="set", path="lead[1]", fields=(("mass", 0.20), ("length", 0.072))))
    after = parse(text).lead[0]
    assert after.mass == pytest.approx(0.20, abs=2e-4)
    assert after.length == pytest.approx(0.072, abs=1e-4)
    assert after.x == parse(FILE).lead[0].x
    assert "# lead in the keel" in text


def test_a_piece_taken_out_and_a_new_one() -> None:
    new = (
        ("name", "lead at 5 in"), ("mass", 0.055), ("known", "worked out"), ("x", 0.7), ("y", 0.0),
        ("z", 0.012), ("shape", "box"), ("length", 0.04), ("breadth", 0.03), ("height", 0.008),
    )  # fmt: skip
    text = changed(
        Edit(action="remove", path="lead[1]", fields=()),
        Edit(action="add", path="lead", fields=new),
    )
    (piece,) = parse(text).lead
    assert piece.name == "lead at 5 in"
    assert (piece.x, piece.z, piece.mass) == pytest.approx((0.7, 0.012, 0.055), abs=2e-4)
    assert 'x = "7.874 in"' in text  # 200 mm from the bow
    assert "y =" not in text.partition("lead at 5 in")[2]


def test_every_other_line_stands_as_it_stood() -> None:
    text = changed(Edit(action="set", path="part[1]", fields=(("x", 0.6),)))
    before, after = FILE.splitlines(), text.splitlines()
    assert len(before) == len(after)
    assert sum(a != b for a, b in zip(before, after, strict=True)) == 1


def test_a_field_is_taken_out_and_text_and_lists_are_written() -> None:
    text = changed(
        Edit(action="set", path="foam[1]", fields=(("volume", 80e-6),)),
        Edit(action="set", path="region[1]", fields=(("thickness", None), ("mass", 0.9))),
    )
    assert parse(text).foam[0].volume == pytest.approx(80e-6, abs=1e-7)
    assert "thickness" not in text
    assert parse(text).regions[0].mass == pytest.approx(0.9, abs=2e-4)


@pytest.mark.parametrize(
    ("value", "kind", "unit", "written"),
    [
        (0.1051861, "length", "mm", "105.2 mm"),
        (0.1051861, "length", "in", "4.141 in"),
        (0.365, "mass", "g", "365 g"),
        (0.0023, "mass", "g", "2.3 g"),
        (1.5e-5, "volume", "cm³", "15 cm³"),
        (-0.03, "length", "mm", "-30 mm"),
    ],
)
def test_no_finer_than_can_be_cut(value: float, kind: str, unit: str, written: str) -> None:
    assert quantity(value, kind, unit) == written


def test_nothing_is_written_twice() -> None:
    """Written again, the same changes change nothing more."""
    edit = Edit(action="set", path="part[1]", fields=(("x", 0.6), ("z", 0.03)))
    once = changed(edit)
    assert rewritten(once, [replace(edit)], {}) == once
