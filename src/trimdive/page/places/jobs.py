"""Work that takes seconds: it runs beside the page, tells how far it is, and can be stopped.

It runs in a process of its own, so that stopping it stops the solver too.
"""

import threading
import time
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from trimdive.errors import TrimdiveError
from trimdive.page.apart import Apart, StoppedError, apart
from trimdive.page.places.tub_blocks import says

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.page.desk import Desk
    from trimdive.page.keeping import Files
    from trimdive.placing.solve import Reached

LONGEST, SHORTEST = 600.0, 1.0  # that it may take [s]
MORE = 10  # times as long as that before it is ended by force [-]


@dataclass(slots=True, kw_only=True)
class Job:
    """One piece of work, and how far it is."""

    her: "Assessment"  # the boat it is of, in her own units
    written: "tuple[str, Files]"  # her file and those beside it
    seconds: float  # that it may take [s]
    apart: Apart  # the work itself
    began: float = field(default_factory=time.monotonic)  # [s]
    reached: "list[Reached]" = field(default_factory=list)
    told: list[object] = field(default_factory=list)  # what else it told on its way
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

    def tell(self, now: object) -> None:
        """Take down how far it is."""
        from trimdive.placing.solve import Reached  # slow to load

        if isinstance(now, Reached):
            self.reached = [*(one for one in self.reached if one.aim != now.aim), now]
        else:
            self.told = [*self.told, now]

    def run(self) -> None:
        """Do the work, and keep what comes of it."""
        try:
            self.done = self.apart.done(self.tell)
        except StoppedError:
            self.is_stopped = True
        except TrimdiveError as error:
            self.wrong = says(error)
        except Exception as error:  # it is told, and the page goes on
            self.wrong = f"That cannot be calculated for her ({type(error).__name__})."
        finally:
            self.is_over = True


def begin(
    desk: "Desk", name: str, seconds: float, work: Callable[..., object], *given: object
) -> None:
    """Begin a work in the place of the one before; it goes on when the lock is let go.

    Args:
        desk: The boat.
        name: Of the work.
        seconds: That it may take [s].
        work: Does it, and lies in a module under its own name; it is given the boat first, then
            what follows here, then how long it may take [s].
        given: What else it is given.
    """
    stop(desk, name)
    her, seconds = desk.own.her, min(max(seconds, SHORTEST), LONGEST)
    done = apart(desk.path.name, MORE * seconds, work, her, *given, seconds)
    job = Job(her=her, written=desk.written(), seconds=seconds, apart=done)
    desk.kept[name] = job
    threading.Thread(target=job.run, daemon=True).start()


def stop(desk: "Desk", name: str) -> None:
    """Stop a work, where it runs."""
    job = job_of(desk, name)
    if job is not None and not job.is_over:
        job.is_stopped = True
        job.apart.stop()


def is_past(desk: "Desk", job: Job) -> bool:
    """Return whether she is no longer the boat that a work is of."""
    return desk.written() != job.written


def job_of(desk: "Desk", name: str) -> Job | None:
    """Return a work, if there is one."""
    found = desk.kept.get(name)
    return found if isinstance(found, Job) else None


def state_of(job: Job | None) -> str:
    """Return how far a work is: "", "running", "stopped", "wrong" or "done"."""
    if job is None:
        return ""
    if job.is_running:
        return "running"
    if job.done is not None:
        return "done"
    return "stopped" if job.is_stopped else "wrong"


def took_by(job: Job | None) -> float:
    """Return how long a work has taken [s]; 0 where there is none."""
    return job.took if job else 0.0


def wrong_of(job: Job | None) -> str:
    """Return why nothing came of a work."""
    return (job.wrong or "No result.") if job else ""
