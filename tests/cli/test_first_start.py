"""The first start on a machine compiles little, and says why it takes longer."""

import json
import os
import subprocess
import sys
from io import StringIO
from pathlib import Path

import pytest
from rich.console import Console

from trimdive.cli.opening import AT_FIRST, AT_WORK, FIRST_KERNEL, FIRST_KERNELS, MORE, CompilingBar
from trimdive.geometry.solids import kernel
from trimdive.geometry.solids.cut import axes_in_plane

BITTERN = Path(__file__).parents[2] / "boats" / "bittern"
ALL_FUNCTIONS = 75  # ours, and those of numba that ours bring with them, which its version sways
PROGRAM = f"""
import json, sys
from numba.core import event
found = []

class All(event.Listener):
    def on_start(self, event):
        function = event.data["dispatcher"].py_func
        found.append((function.__module__, function.__name__))

    def on_end(self, event):
        pass

event.register("numba:compile", All())
from typer.testing import CliRunner
from trimdive.cli.app import app
result = CliRunner().invoke(app, ["float", {str(BITTERN)!r}])
print(json.dumps([result.output, found]))
"""


def compiled(cache: Path) -> tuple[str, list[tuple[str, str]]]:
    """Return what ``float`` says, and module and name of every function compiled for it."""
    around = {**os.environ, "NUMBA_CACHE_DIR": str(cache)}
    words = [sys.executable, "-c", PROGRAM]
    run = subprocess.run(words, env=around, capture_output=True, text=True, check=True)
    answer, found = json.loads(run.stdout)
    return answer, [(module, name) for module, name in found]


def test_a_first_answer_compiles_few_kernels_each_for_one_kind_of_argument(tmp_path: Path) -> None:
    """Counted, not timed. Whoever needs more says here why."""
    answer, found = compiled(tmp_path)
    names = [f"{module}.{name}" for module, name in found]
    ours = [name.removeprefix("trimdive.") for name in names if name.startswith("trimdive.")]
    assert "draught at middle" in answer
    assert ours[0] == FIRST_KERNEL
    assert len(ours) == FIRST_KERNELS
    assert len(found) <= ALL_FUNCTIONS
    assert {name for name in ours if ours.count(name) > 1} == set()
    again, none = compiled(tmp_path)
    assert (again, none) == (answer, [])


def test_kernels_count_only_while_all_of_their_files_are_as_they_were() -> None:
    """One is compiled into another, of which numba knows nothing."""
    index = axes_in_plane._cache._cache_file  # type: ignore[attr-defined]
    assert index._source_stamp == kernel.STAMP == kernel.stamp()
    assert {"cut.py", "tree.py", "energy.py", "solve.py"} <= {name for name, _, _ in kernel.STAMP}


@pytest.mark.parametrize(
    ("first", "said"),
    [(FIRST_KERNEL, AT_FIRST), ("hydrostatics.equilibrium.heeled.held", MORE)],
    ids=["first", "more"],
)
def test_a_terminal_is_told_what_is_compiled(first: str, said: str) -> None:
    console = Console(file=StringIO(), force_terminal=True, width=100)
    with console.status(AT_WORK) as status:
        bar = CompilingBar(status)
        bar.step(first)
        bar.step("hydrostatics.equilibrium.solve.settle")
        assert bar.progress is not None
        assert bar.progress.tasks[0].completed == 2
        assert bar.progress.tasks[0].total == (FIRST_KERNELS if first == FIRST_KERNEL else None)
        bar.end()
    written = console.file.getvalue()  # type: ignore[attr-defined]
    assert " ".join(written.split()).count(said) == 1


def test_nothing_is_said_where_nothing_is_compiled() -> None:
    console = Console(file=StringIO(), force_terminal=True, width=100)
    with console.status(AT_WORK) as status:
        CompilingBar(status).end()
    assert "compil" not in console.file.getvalue()  # type: ignore[attr-defined]
