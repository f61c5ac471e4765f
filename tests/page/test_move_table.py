"""The table of a move, as it is now and then: figures written as the large ones are."""

from dataclasses import replace
from types import SimpleNamespace
from typing import TYPE_CHECKING, cast

from tests.page.conftest import BOATS, desk_of

from trimdive.page.large import MINUS
from trimdive.page.trial import _figures  # pyright: ignore[reportPrivateUsage] - what it is made of

if TYPE_CHECKING:
    from trimdive.assessment import Assessment


def test_a_bg_below_zero_has_a_minus_as_the_large_figure_has() -> None:
    her = desk_of(BOATS / "bittern" / "boat.toml").her
    under = SimpleNamespace(
        boat=her.boat, floater=her.floater, surfaced=her.surfaced, need=her.need,
        lowest=replace(her.lowest, bg=-0.0056), lowest_name=her.lowest_name,
    )  # fmt: skip
    told = dict(_figures(cast("Assessment", under)))[f"BG, {her.lowest_name}"]
    assert told == f"{MINUS}5.6 mm"
