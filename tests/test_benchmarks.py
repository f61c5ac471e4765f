"""What is timed still runs, and what stands side by side comes to the same; no time counts."""

from pathlib import Path
from shutil import copytree

import numpy as np
import pytest
from benchmarks import bench, cut, fit, page, plant
from benchmarks.meshes import LONG, geodesic, stretched
from benchmarks.plain import in_numba, in_numpy
from benchmarks.timing import HEADS, NOTHING, Row

from trimdive.geometry.solids.cut import axes_in_plane
from trimdive.geometry.solids.cut import cut as ours
from trimdive.geometry.solids.tree import plant as planted


def test_the_plain_cuts_give_all_that_ours_gives() -> None:
    mesh = stretched(geodesic(3), LONG)
    tree = planted(mesh)
    for n, d in cut.waterlines(5):
        forward, port = axes_in_plane(n)
        found, axes = ours(tree, n, d), np.stack([forward, port, n])
        for plain in (in_numpy(mesh, n, d), in_numba(mesh, n, d)):
            assert plain[0] == pytest.approx(found.volume, rel=1e-12)
            moment = plain[1:4] @ axes + plain[0] * d * n
            np.testing.assert_allclose(moment, found.moment, atol=1e-11)
            assert plain[4] == pytest.approx(found.area, rel=1e-12)
            np.testing.assert_allclose(plain[5:7], axes[:2] @ found.area_moment, atol=1e-11)
            second = axes[:2] @ found.area_second @ axes[:2].T
            np.testing.assert_allclose(
                plain[7:], second[[0, 0, 1], [0, 1, 1]], rtol=1e-11, atol=1e-11
            )


def test_libraries_and_plain_code_come_to_the_same() -> None:
    mesh = stretched(geodesic(3), LONG)
    assert cut.apart(planted(mesh), mesh, cut.waterlines(1)[0]) < 1e-12


@pytest.mark.parametrize("subject", [bench, fit, plant], ids=["bench", "fit", "plant"])
def test_what_is_timed_still_runs(subject: object, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(subject, "RUNS", 1)
    lines, _ = subject.rows()  # type: ignore[attr-defined]
    assert lines
    assert {len(line) for line in lines} == {len(HEADS)}


def test_edits_of_the_page_are_still_answered(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(page, "EDITS", 1)
    copytree(page.BOATS / "bittern", tmp_path / "bittern")
    times, size = page._times(tmp_path / "bittern" / "boat.toml")
    assert len(times) == 1
    assert size > 10_000


def test_met_is_told_only_of_what_is_wanted() -> None:
    row = Row(what="cut", beside="a loop", time=1.0, other=2.0)
    assert row.cells[-2:] == [NOTHING, NOTHING]
    assert Row(what="cut", beside="a loop", time=1.0, other=2.0, least=2.0).cells[-1] == "yes"
    assert Row(what="cut", beside="a loop", time=1.0, other=2.0, least=2.1).cells[-1] == "no"
