"""Charts: labels, marks, scales and breaks; not pixels.

What the curves show is checked against the states they are made of, which are checked against
closed forms and published examples where they are worked out.
"""

import json
import re
from itertools import pairwise
from xml.etree import ElementTree

import numpy as np
import pytest
from tests.charts.shown import KINDS, NAMES, boat, chart, curves, drawn, inside, rows, words

from trimdive.ballast.dive.upright import lolls, runs, stands_upright
from trimdive.pictures.charts.frame import DASHES, HUES, span
from trimdive.text.moments import happenings, how_full

EACH = pytest.mark.parametrize(("name", "kind"), [(name, kind) for name in NAMES for kind in KINDS])


@EACH
def test_svg_is_xml_with_ink_in_the_colour_of_the_page(name: str, kind: str) -> None:
    text = drawn(name, kind)
    ElementTree.fromstring(text)
    assert "currentColor" in text
    assert not re.search(r"nan|undefined|Infinity", text, re.IGNORECASE)
    colours = set(re.findall(r'(?:fill|stroke)="(#[0-9A-Fa-f]{3,6}|[a-z]+)"', text))
    assert colours <= {"none", "currentColor", "transparent", *HUES}, "ink of its own"
    assert set(re.findall(r'font-family="([^"]+)"', text)) == {"DejaVu Sans, sans-serif"}
    assert boat(name).boat.name in ElementTree.fromstring(text)[0].text or ""  # type: ignore[operator]


@EACH
def test_scales_are_told_and_hold_what_is_shown(name: str, kind: str) -> None:
    json.dumps(chart(name, kind), allow_nan=False)
    for layer in curves(name, kind):
        for side in ("x", "y"):
            answer = layer["encoding"][side]  # type: ignore[index]
            low, high = answer["scale"]["domain"]
            shown = [float(row[answer["field"]]) for row in rows(layer)]
            assert not shown or low <= min(shown) <= max(shown) <= high


@EACH
def test_curves_differ_by_dashes_as_well_as_by_colour(name: str, kind: str) -> None:
    for layer in curves(name, kind):
        answer = layer["encoding"]
        hues, dashes = (answer[key]["scale"]["range"] for key in ("color", "strokeDash"))  # type: ignore[index]
        assert len(set(hues)) == len(hues) == len({tuple(dash) for dash in dashes})
    assert len(HUES) == len(DASHES)


def test_marks_name_what_goes_under() -> None:
    said = " ".join(words("bittern", "dive"))
    for name in ("lower hull", "upper hull and casing", "tower", "the whole boat"):
        assert f"{name} goes under" in said
    assert "forward tank and after tank full" in said
    assert "flops" not in said
    assert "will not stand upright" not in said


def test_worst_moments_are_named() -> None:
    said, her = words("bittern", "dive"), boat("bittern")
    most, least = her.down.largest_trim, her.down.least_gm
    assert f"largest trim: {np.degrees(most.state.trim_angle):.1f}° bow down" in said
    assert f"least GM: {least.state.gm_t * 1e3:.1f} mm" in said


def test_the_as_bought_boat_flops_and_will_not_stand() -> None:
    said = words("bittern-as-bought", "dive")
    assert any(re.fullmatch(r"flops .*° going down", text) for text in said)
    assert "will not stand upright" in said


@pytest.mark.parametrize("name", NAMES)
def test_no_curve_runs_over_a_jump(name: str) -> None:
    her = boat(name)
    for way in (her.down, her.up):
        assert sum(len(run.moments) for run in runs(her.floater, way)) == len(way.moments)
        jumps = {jump.filling for jump in way.jumps}
        for run in runs(her.floater, way):
            assert not {moment.filling for moment in run.moments[:-1]} & jumps
            turns = [
                np.arccos(np.clip(a.state.rest.n @ b.state.rest.n, -1, 1))
                for a, b in pairwise(run.moments)
            ]
            assert max(turns, default=0.0) < 0.06, "a curve that leaps"


def test_a_lolling_boat_would_not_stand_upright() -> None:
    """Held upright at the filling at which she leans most, her energy falls as she leans."""
    her = boat("bittern-as-bought")
    lean = her.down.largest_heel.state
    assert not stands_upright(her.floater, lean)
    assert her.gz(lean, np.radians([0.0, 5.0])).gz[1] < 0
    loll, *_ = lolls(her.floater, runs(her.floater, her.down))
    assert loll.first < how_full(her, lean) < loll.last
    assert loll.heel == abs(lean.heel)


def test_a_list_is_no_loll() -> None:
    """The battery to one side makes Plover lean, but her lever still grows with heel."""
    her = boat("plover-as-bought")
    assert abs(her.surfaced.heel) > np.radians(4)
    assert all(stands_upright(her.floater, moment.state) for moment in her.down.moments)


def test_levers_end_where_they_begin_to_be_told() -> None:
    for layer in curves("bittern", "gz"):
        found = rows(layer)
        assert {row["state"] for row in found} >= {"surfaced", "dived"}
        for state in {row["state"] for row in found}:
            mine = [row for row in found if row["state"] == state]
            assert mine[0]["heel"] == 0
            assert abs(float(mine[0]["gz"])) < 0.05  # mm: she rests upright
            # For small heels GZ = GM φ (Derrett, Ship Stability, the wall-sided limit).
    her = boat("bittern")
    small = np.radians(0.25)
    gz = her.gz(her.surfaced, np.array([0.0, small])).gz[1]
    assert gz == pytest.approx(her.surfaced.gm_t * np.sin(small), rel=0.02)


def test_happenings_come_in_order_and_together() -> None:
    her = boat("plover")
    said = [happening.what for happening in happenings(her.down)]
    fillings = [happening.filling for happening in happenings(her.down)]
    assert fillings == sorted(fillings)
    assert "stern and middle go under" in said
    assert [h.filling for h in happenings(her.up, up=True)] == sorted(
        (h.filling for h in happenings(her.up, up=True)), reverse=True
    )
    assert not [h for h in happenings(her.up, up=True) if h.what.endswith("full")]


@pytest.mark.parametrize("values", [[], [0.0], [1e-12], [-3.0, 8.0], [400.0, 440.0], [2e9]])
def test_a_scale_holds_its_values(values: list[float]) -> None:
    for zero in (True, False):
        low, high = span(values, zero=zero)
        assert low < high
        assert all(low <= value <= high for value in values)


def test_labels_do_not_run_into_each_other() -> None:
    """Labels of one line are apart: each begins where the one before has ended."""
    for name in NAMES:
        strip = chart(name, "dive")["vconcat"][0]  # type: ignore[index]
        taken: dict[float, list[tuple[float, float]]] = {}
        for part in inside(strip):
            mark, data = part.get("mark"), part.get("data")
            if not (isinstance(mark, dict) and mark["type"] == "text" and isinstance(data, dict)):
                continue
            for row in data["values"]:
                at, size = row["full"] / 100 * 660, 6.3 * len(row["what"])
                place = (at - size, at) if row["left"] else (at, at + size)
                taken.setdefault(row["lane"], []).append(place)
        for places in taken.values():
            for one, other in pairwise(sorted(places)):
                assert one[1] <= other[0] + 1e-9


@pytest.mark.parametrize("name", NAMES)
def test_bow_down_is_down_as_on_the_track(name: str) -> None:
    """The scale of trim is turned over, and no other: GM and volume grow upwards."""
    turned = {
        str(layer["encoding"]["y"]["axis"]["title"]): "reverse" in layer["encoding"]["y"]["scale"]  # type: ignore[index]
        for layer in curves(name, "dive")
    }
    assert [title for title, is_turned in turned.items() if is_turned] == ["trim [°], bow down +"]
    assert len(turned) >= 4
