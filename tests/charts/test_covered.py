"""The chart of what water alone covers: its corners, its states, its names."""

import json

import pytest

from trimdive.assessment import Assessment
from trimdive.pictures.charts import reach_chart, svg


def test_corners_close_and_states_are_all_there(bittern: Assessment) -> None:
    layers = reach_chart(bittern, bittern.wanted)["layer"]
    walk = layers[0]["data"]["values"]
    assert walk[0]["mass"] == walk[-1]["mass"]
    assert walk[0]["moment"] == walk[-1]["moment"]
    assert len(layers[1]["data"]["values"]) == len(bittern.wanted)
    most = max(one["mass"] for one in walk)
    full = float(bittern.full_water.sum()) * bittern.water.density
    assert most == pytest.approx(full * 1e3, rel=1e-9)  # in g, as the boat file asks


def test_it_becomes_svg_with_its_names(grebe: Assessment) -> None:
    text = svg(reach_chart(grebe, grebe.wanted))
    assert "what ballast water alone covers" in text
    assert "as she is" in text
    assert "NaN" not in json.dumps(reach_chart(grebe, grebe.wanted))
