"""From what was typed for BOAT and --water to an assessment of her."""

import sys
from collections.abc import Generator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from trimdive.errors import BoatFileError

if TYPE_CHECKING:
    from rich.progress import Progress
    from rich.status import Status

    from trimdive.assessment import Assessment

BOAT_FILE = "boat.toml"
AT_WORK = "calculating …"
AT_FIRST = "First start: compiling the calculations, once. About ten seconds; later starts skip it."
MORE = "Compiling calculations not used before, once."
COMPILING = "compiling"
FIRST_KERNEL = "geometry.solids.cut._plane"  # what is compiled before all else
FIRST_KERNELS = 40  # how many are, until a first boat floats; the bar's length


def boat_file(given: Path) -> Path:
    """Return the boat file: as named, or the one in the folder that was named.

    Raises:
        BoatFileError: The folder holds none.
    """
    from trimdive.boatfile.loading import boat_file as found

    return found(given)


def opened(given: Path, water: str | None = None) -> "Assessment":
    """Return the assessment of a boat, in another water where one is named.

    Raises:
        TrimdiveError: Something in her file, beside it or in the water named must be mended.
    """
    from trimdive.assessment import assess
    from trimdive.text.water_asked import water_of

    file = boat_file(given)
    try:
        her = assess(file)
    except OSError as error:
        reason = (error.strerror or "it cannot be read").lower()
        where = str(error.filename or file)
        raise BoatFileError(reason, where, "Check that you may read it.") from None
    if water is None:
        return her
    other = water_of(water)
    return her.in_water(other.kind, other.celsius, other.salt)


@contextmanager
def working() -> Generator[None]:
    """Tell a person at a terminal that it is being worked out, and what a first start compiles."""
    if not sys.stderr.isatty():
        yield
        return
    from rich.console import Console

    with Console(stderr=True).status(AT_WORK) as status:
        from trimdive.geometry.solids.kernel import compiling

        bar = CompilingBar(status)
        try:
            with compiling(bar.step):
                yield
        finally:
            bar.end()


class CompilingBar:
    """A bar of what is compiled, beside a line that says why; nothing where all is there."""

    def __init__(self, status: "Status") -> None:
        """Keep what stands there while nothing is compiled."""
        self.status = status
        self.progress: Progress | None = None

    def step(self, kernel: str) -> None:
        """Show that one more function is being compiled.

        Args:
            kernel: Its file and name, such as "hydrostatics.equilibrium.solve.settle".
        """
        if self.progress is None:
            self.progress = self._begun(FIRST_KERNELS if kernel == FIRST_KERNEL else None)
        self.progress.advance(self.progress.task_ids[0])

    def _begun(self, total: int | None) -> "Progress":
        from rich.progress import BarColumn, Progress, TextColumn, TimeElapsedColumn

        self.status.stop()
        console = self.status.console
        console.print(MORE if total is None else AT_FIRST)
        columns = TextColumn("{task.description}"), BarColumn(), TimeElapsedColumn()
        progress = Progress(*columns, console=console, transient=True)
        progress.add_task(COMPILING, total=total)
        progress.start()
        return progress

    def end(self) -> None:
        """Take the bar away."""
        if self.progress is not None:
            self.progress.stop()


def keep(text: str, file: Path | None) -> None:
    """Write a text into a new file, if one is named; an old one is never overwritten.

    Raises:
        BoatFileError: It is there already, or cannot be written.
    """
    if file is None:
        return
    try:
        with file.open("x", encoding="utf-8") as stream:
            stream.write(text)
    except FileExistsError:
        raise BoatFileError("there is such a file already", str(file), "Name another.") from None
    except OSError as error:
        reason = (error.strerror or "it cannot be written").lower()
        raise BoatFileError(reason, str(file), "Choose another file.") from None
