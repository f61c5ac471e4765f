"""Work that takes seconds: it runs beside the page, tells how far it is, and can be stopped."""

import threading
import time
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from trimdive.errors import TrimdiveError
from trimdive.page.places.tub_blocks import says

if TYPE_CHECKING:
    from trimdive.assess import Assessment
    from trimdive.page.desk import Desk
    from trimdive.page.keeping import Files
    from trimdive.place import Reached

LONGEST, SHORTEST = 600.0, 1.0  # that it may take [s]


class StoppedError(Exception):
    """It was told to stop."""


@dataclass(slots=True, kw_only=True)
class Job:
    """One piece of work, and how far it is."""

    her: "Assessment"  # the boat it is of, in her own units
    written: "tuple[str, Files]"  # her file and those beside it
    seconds: float  # that it may take [s]
    began: float = field(default_factory=time.monotonic)  # [s]
    reached: "list[Reached]" = field(default_factory=list)
    done: object | None = None
    wrong: str = ""  # why nothing came of it
    is_stopped: bool = False
    is_over: bool = False

    @property
    def is_running(self) -> bool:
        """Return whether somebody may still wait for it."""
        return not self.is_over and not self.is_stopped

    @property
    def took(self) -> float:
        """Return how long it has taken [s]."""
        return time.monotonic() - self.began

    def tell(self, now: "Reached") -> None:
        """Take down how far it is.

        Raises:
            StoppedError: It is to stop.
        """
        if self.is_stopped:
            raise StoppedError
        kept = [one for one in self.reached if one.aim != now.aim]
        self.reached = [*kept, now]

    def run(self, work: "Callable[[Job], object]") -> None:
        """Do the work, and keep what comes of it."""
        try:
            self.done = work(self)
        except StoppedError:
            pass
        except TrimdiveError as error:
            self.wrong = says(error)
        except Exception as error:  # it is told, and the page goes on
            self.wrong = f"That cannot be calculated for her ({type(error).__name__})."
        finally:
            self.is_over = True


def begin(desk: "Desk", name: str, seconds: float, work: Callable[[Job], object]) -> None:
    """Begin a work in the place of the one before; it goes on when the lock is let go.

    Args:
        desk: The boat.
        name: Of the work.
        seconds: That it may take [s].
        work: Does it; is given the job.
    """
    stop(desk, name)
    job = Job(
        her=desk.own.her, written=desk.written(), seconds=min(max(seconds, SHORTEST), LONGEST)
    )
    desk.kept[name] = job
    threading.Thread(target=job.run, args=(work,), daemon=True).start()


def stop(desk: "Desk", name: str) -> None:
    """Stop a work, where it runs."""
    job = job_of(desk, name)
    if job is not None and not job.is_over:
        job.is_stopped = True


def is_past(desk: "Desk", job: Job) -> bool:
    """Return whether she is no longer the boat that a work is of."""
    return desk.written() != job.written


def job_of(desk: "Desk", name: str) -> Job | None:
    """Return a work, if there is one."""
    found = desk.kept.get(name)
    return found if isinstance(found, Job) else None
