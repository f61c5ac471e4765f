"""Charts are drawn apart: odd figures are refused, and a death of the library is a sentence."""

import math
import os
import signal
from concurrent.futures import ThreadPoolExecutor

import pytest

from trimdive.errors import GeometryError
from trimdive.pictures.charts.drawer import DRAWER, LARGEST, Drawer, refuse_odd
from trimdive.pictures.charts.frame import Axis, framed, lines, panel, svg


def chart(*values: float, title: str = "Title") -> dict[str, object]:
    """Return a small chart."""
    x, y = Axis(field="x", title="x", low=0, high=9), Axis(field="y", title="y", low=0, high=9)
    rows = [{"x": i, "y": value, "run": 0, "at": i} for i, value in enumerate(values)]
    return framed(panel([lines(rows, x, y, {})], height=100), title, "under it")


@pytest.mark.parametrize("odd", [math.nan, math.inf, -math.inf, 2 * LARGEST, 10**400])
def test_figures_that_no_chart_can_show_are_refused(odd: float) -> None:
    with pytest.raises(GeometryError, match="the chart: this chart holds a figure"):
        svg(chart(1.0, odd))
    assert svg(chart(1.0, 2.0)).startswith("<svg")


def test_too_many_points_are_refused() -> None:
    with pytest.raises(GeometryError, match="too many points"):
        refuse_odd(list(range(300_000)))


@pytest.mark.skipif(os.name != "posix", reason="signals are POSIX's")
def test_when_it_dies_the_next_chart_is_drawn_all_the_same() -> None:
    drawer = Drawer()
    try:
        first = drawer.drawn(chart(1.0, 2.0))
        assert drawer.running is not None
        os.kill(drawer.running.pid, signal.SIGSEGV)
        drawer.running.wait()
        assert drawer.drawn(chart(1.0, 2.0)) == first
        os.kill(drawer.running.pid, signal.SIGSTOP)
        os.kill(drawer.running.pid, signal.SIGKILL)
        assert drawer.drawn(chart(1.0, 2.0)) == first
    finally:
        drawer.end()


def test_what_is_no_chart_is_a_sentence() -> None:
    with pytest.raises(GeometryError, match="cannot be drawn"):
        DRAWER.drawn({"mark": 3})


def test_many_threads_get_each_its_own() -> None:
    charts = [chart(1.0, 2.0, title=f"Title {i}") for i in range(12)]
    with ThreadPoolExecutor(6) as pool:
        drawn = list(pool.map(svg, charts))
    assert all(f"Title {i}" in one for i, one in enumerate(drawn))
