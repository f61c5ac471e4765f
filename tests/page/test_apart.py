"""Work in a process of its own: it answers, tells, is stopped, and ends in a sentence.

What a process may take and how it is ended is POSIX's (setrlimit, kill).
"""

import os
import signal
import threading
import time
from collections.abc import Callable

import numpy as np
import pytest

from trimdive.errors import BoatFileError, GeometryError, TrimdiveError
from trimdive.page.apart import MEMORY, StoppedError, apart

LOADS_ANEW = True  # processes are begun as the program begins them
LONG = 3600.0  # more than any of these takes [s]
UNIX = pytest.mark.skipif(os.name != "posix", reason="limits and signals are POSIX's")


def counted(to: int, progress: Callable[[object], None]) -> int:
    print("what a library prints")
    for number in range(to):
        progress(number)
    return os.getpid()


def refused(name: str) -> object:
    raise GeometryError("it is bent", name, "Straighten it.", name="spar")


def broken(_: str) -> object:
    raise ZeroDivisionError


def endless(_: str) -> object:
    """Work in a library that gives nobody else a turn."""
    return sum(range(10**15))


def greedy(size: int) -> float:
    return float(np.ones(size // 8).sum())


def died(_: str) -> object:
    os.kill(os.getpid(), signal.SIGSEGV)
    return None


def test_it_answers_and_tells_from_another_process() -> None:
    heard: list[object] = []
    assert apart("boat.toml", LONG, counted, 3).done(heard.append) != os.getpid()
    assert heard == [0, 1, 2]


def test_what_is_refused_there_is_refused_here() -> None:
    with pytest.raises(GeometryError) as found:
        apart("a.stl", LONG, refused, "a.stl").done(print)
    assert str(found.value) == "a.stl ('spar'): it is bent. Straighten it."
    with pytest.raises(BoatFileError, match=r"cannot be calculated \(ZeroDivisionError\)"):
        apart("a.stl", LONG, broken, "").done(print)


@UNIX
def test_it_is_stopped_at_once_whatever_it_does() -> None:
    work = apart("boat.toml", LONG, endless, "")
    raised: list[BaseException] = []

    def wait() -> None:
        try:
            work.done(print)
        except StoppedError as error:
            raised.append(error)

    waiting = threading.Thread(target=wait)
    waiting.start()
    while work.running is None:
        time.sleep(0.01)
    work.stop()
    waiting.join(60)
    assert len(raised) == 1
    assert work.running.poll() == -signal.SIGKILL
    before = apart("boat.toml", LONG, endless, "")
    before.stop()
    with pytest.raises(StoppedError):
        before.done(print)


@UNIX
@pytest.mark.parametrize(
    ("seconds", "work", "given", "says"),
    [
        (2.0, endless, "", "longer than 2 s"),
        (LONG, died, "", "it ended by itself"),
        (LONG, greedy, 2 * MEMORY, "more than 2 GB of memory"),
    ],
)
def test_what_goes_too_far_ends_in_a_sentence(
    seconds: float, work: Callable[..., object], given: object, says: str
) -> None:
    with pytest.raises(TrimdiveError, match=says):
        apart("a.stl", seconds, work, given).done(print)
