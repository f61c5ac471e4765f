"""Words on a sheet: what the font does not have becomes a box (ISO/IEC 14496-22, table cmap)."""

from trimdive.sheets.setting import INSTEAD, printable


def test_what_the_font_has_stays_and_the_rest_becomes_a_box() -> None:
    has = "Möwe ½ ° ² ρ ν × − Ω Ж א ش →"
    assert printable(has) == has
    assert printable("潜水\x1b[2J🚢") == f"{INSTEAD * 3}[2J{INSTEAD}"
    assert printable("a\nb\tc") == "a\nb\tc"
