"""Charts: Vega-Lite dictionaries from finished records, and SVG out of them."""

from trimdive.pictures.charts.covered import reach_chart
from trimdive.pictures.charts.dive import dive_chart
from trimdive.pictures.charts.frame import Chart, svg
from trimdive.pictures.charts.levers import gm_chart, gz_chart, lever_states, levers
from trimdive.pictures.charts.room import room_charts

__all__ = [
    "Chart",
    "dive_chart",
    "gm_chart",
    "gz_chart",
    "lever_states",
    "levers",
    "reach_chart",
    "room_charts",
    "svg",
]
