"""Figures such as "1,240": the sum, the boat file or the other figures decide, or it is refused.

Every mass expected is worked out by hand from the figures in the list.
"""

import pytest
from tests.in_words import all_in_words, in_words

from trimdive.weightlists import Answers, ListPreview, understood

HEADS = "Part;Mass [g]\n"


def read(text: str, **present: float) -> ListPreview:
    return understood(text.encode(), "list.csv", Answers(), present)


def masses(preview: ListPreview) -> dict[str, object]:
    return {item.name: pytest.approx(item.mass) for item in preview.items}


def test_the_total_decides_against_the_decimals_of_the_list() -> None:
    preview = read(HEADS + "pump;85,5\nbattery;1,240\nTotal;1325,5\n")
    assert masses(preview) == {"pump": 0.0855, "battery": 1.24}
    assert preview.sums[0].agrees
    assert "'1,240' is 1240, as the list's own total shows" in all_in_words(preview.how)


def test_the_total_decides_for_the_decimals_of_the_list() -> None:
    preview = read(HEADS + "pump;85,5\nscrew;1,240\nTotal;86,74\n")
    assert masses(preview) == {"pump": 0.0855, "screw": 0.00124}


def test_a_total_that_may_itself_be_read_two_ways() -> None:
    preview = read(HEADS + "pump;85\nbattery;1,240\nTotal;1,325\n")
    assert masses(preview) == {"pump": 0.085, "battery": 1.24}
    assert preview.sums[0].stated == pytest.approx(1.325)


def test_each_of_two_figures_is_decided_for_itself() -> None:
    preview = read(HEADS + "pump;85,5\nbattery;1,240\nscrew;1,125\nTotal;1326,625\n")
    assert masses(preview) == {"pump": 0.0855, "battery": 1.24, "screw": 0.001125}


def test_points_are_no_surer_than_commas() -> None:
    preview = read("Part,Mass [g]\npump,85.5\nbattery,1.240\nTotal,1325.5\n")
    assert masses(preview) == {"pump": 0.0855, "battery": 1.24}


def test_what_is_aboard_decides_where_there_is_no_total() -> None:
    assert masses(read(HEADS + "pump;85,5\nBattery;1,240\n", battery=1.1))["Battery"] == 1.24
    light = read(HEADS + "pump;85,5\nscrew;1,240\n", screw=0.0013)
    assert masses(light)["screw"] == 0.00124
    assert "'1,240' is 1.24, as the boat file has it" in all_in_words(light.how)


def test_where_total_and_boat_file_contradict_each_other_it_is_refused() -> None:
    preview = read(HEADS + "pump;85,5\nbattery;1,240\nTotal;1325,5\n", battery=0.0012)
    assert masses(preview) == {"pump": 0.0855}
    why = in_words(preview.not_understood[0].why)
    assert "the list's sum fits 1240, the boat file 1.24" in why


def test_what_is_aboard_but_far_from_either_decides_nothing() -> None:
    preview = read(HEADS + "pump;85,5\nbattery;1,240\n", battery=0.05)
    assert "'1,240' may be 1240 g or 1.24 g; 1240 is likelier" in in_words(
        preview.not_understood[0].why
    )
    assert "write 1240 or 1,24" in in_words(preview.not_understood[0].why)


def test_three_decimals_elsewhere_settle_it() -> None:
    preview = read("Part;Mass [g]\nscrew;0,085\nbattery;1,240\n")
    assert masses(preview)["battery"] == 0.00124


def test_kilograms_have_decimals_as_the_list_writes_them() -> None:
    assert masses(read("Part;Mass [kg]\npump;0,5\nbattery;1,240\n"))["battery"] == 1.24


def test_a_sum_of_other_rows_decides_nothing() -> None:
    preview = read(HEADS + "pump;85,5\nrods;14,5\nSubtotal;100\nbattery;1,240\n")
    assert [row.number for row in preview.not_understood] == [5]


def test_a_place_that_may_be_read_two_ways_is_doubted() -> None:
    preview = read("Part;Mass [g];x [mm]\npump;85,5;1,240\n")
    assert "'1,240' may be 1240 mm or 1.24 mm" in in_words(preview.items[0].doubts[0])
    assert "x" in {ask.field for ask in preview.asks}
