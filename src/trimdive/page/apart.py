"""Does a work in a process of its own: it can be stopped at once, whatever library it is in.

What it needs is handed over when it begins, and what comes of it when it ends; between them it may
tell how far it is. A work that takes too long, too much memory, or the process with it, ends in a
sentence; the page goes on.
"""

import atexit
import io
import os
import pickle
import struct
import subprocess
import sys
import threading
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass, field
from typing import IO
from weakref import WeakSet

from trimdive.errors import BoatFileError, TrimdiveError

MEMORY = 2 * 2**30  # that a work may take [bytes]
KINDER = 5  # how far such a work stands back behind the page, as nice has it [-]
TOO_MUCH = f"it takes more than {MEMORY // 2**30} GB of memory"
SMALLER = "Make it smaller, or write it again."
HEAD = struct.Struct(">Q")  # length of what follows [bytes]
FEW = {"OPENBLAS_NUM_THREADS": "2", "OMP_NUM_THREADS": "2"}  # each thread takes memory of its own
Progress = Callable[[object], None]
BEGIN = "import sys; sys.path[:] = {path!r}; from trimdive.page.apart import work; work()"
_running: "WeakSet[subprocess.Popen[bytes]]" = WeakSet()


class StoppedError(Exception):
    """It was told to stop."""


@dataclass(slots=True)
class Apart:
    """One work, done in a process of its own.

    The function lies in a module under its own name; it is given ``progress`` by name where it
    tells how far it is.
    """

    handed: bytes  # the function and what it is given
    name: str  # of what it is done to, for its sentences
    seconds: float  # that it may take [s]
    running: "subprocess.Popen[bytes] | None" = None
    is_stopped: bool = False
    is_late: bool = False
    lock: threading.Lock = field(default_factory=threading.Lock)

    def done(self, progress: Progress) -> object:
        """Do it, wait, and return what comes of it.

        Args:
            progress: Called with whatever it tells on its way.

        Raises:
            TrimdiveError: As the work has it; or it took too long, or too much memory.
            StoppedError: It was stopped.
        """
        with self.lock:
            if self.is_stopped:
                raise StoppedError
            running = self.running = _begun()
        late = threading.Timer(self.seconds, self._end, kwargs={"is_late": True})
        late.start()
        try:
            return self._answer(running, progress)
        finally:
            late.cancel()
            _ended(running)

    def _answer(self, running: "subprocess.Popen[bytes]", progress: Progress) -> object:
        if running.stdin is None or running.stdout is None:
            raise AssertionError("both ends of the process are open")
        try:
            _send(running.stdin, self.handed)
            while True:
                kind, found = pickle.loads(_received(running.stdout))  # of our own program alone
                if kind == "done":
                    return found
                if kind == "wrong":
                    raise found
                progress(found)
        except (OSError, EOFError):
            raise self._why() from None

    def _why(self) -> Exception:
        """Return why it ended without an answer."""
        if self.is_late:
            what = f"it takes longer than {self.seconds:.0f} s"
            return BoatFileError(what, self.name, "Make it smaller or plainer, and try again.")
        if self.is_stopped:
            return StoppedError()
        return BoatFileError(f"it ended by itself: {TOO_MUCH}, or is damaged", self.name, SMALLER)

    def stop(self) -> None:
        """End it at once."""
        self._end(is_late=False)

    def _end(self, *, is_late: bool) -> None:
        with self.lock:
            self.is_stopped, self.is_late = True, self.is_late or is_late
            if self.running is not None:
                self.running.kill()


def apart(name: str, seconds: float, function: Callable[..., object], *given: object) -> Apart:
    """Return a work that is to be done in a process of its own.

    Args:
        name: Of what it is done to, for its sentences.
        seconds: That it may take [s].
        function: Lies in a module under its own name.
        given: What it is given.
    """
    return Apart(handed=pickle.dumps((function, given, name)), name=name, seconds=seconds)


def _begun() -> "subprocess.Popen[bytes]":
    """Return the process, which waits for its work."""
    found = subprocess.Popen(
        [sys.executable, "-c", BEGIN.format(path=sys.path)],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        env={**os.environ, **FEW},
    )
    _running.add(found)
    return found


def _ended(running: "subprocess.Popen[bytes]") -> None:
    running.kill()
    running.wait()
    for one in (running.stdin, running.stdout):
        if one is not None:
            with suppress(OSError):
                one.close()


@atexit.register
def _end_all() -> None:
    for one in list(_running):
        if one.poll() is None:
            one.kill()


def _send(to: IO[bytes], data: bytes) -> None:
    to.write(HEAD.pack(len(data)))
    to.write(data)
    to.flush()


def _received(of: IO[bytes]) -> bytes:
    """Return what was sent next.

    Raises:
        EOFError: Nothing more comes.
    """
    head = of.read(HEAD.size)
    if len(head) < HEAD.size:
        raise EOFError
    (length,) = HEAD.unpack(head)
    data = of.read(length)
    if len(data) < length:
        raise EOFError
    return data


def work() -> None:
    """Do the work that is handed over; the process is for nothing else."""
    answers = os.fdopen(os.dup(1), "wb")
    os.dup2(2, 1)  # what libraries print is no answer
    _bounded()
    handed = _received(sys.stdin.buffer)
    threading.Thread(target=_watched, args=(sys.stdin.buffer,), daemon=True).start()
    try:
        _send(answers, pickle.dumps(("done", _done(handed, answers))))
    except TrimdiveError as error:
        _send(answers, pickle.dumps(("wrong", error)))


def _done(handed: bytes, answers: IO[bytes]) -> object:
    """Return what comes of a work.

    Raises:
        TrimdiveError: As the work has it; whatever else is raised is told by its kind.
    """
    function, given, name = pickle.loads(handed)  # of our own program alone

    def tell(now: object) -> None:
        _send(answers, pickle.dumps(("progress", now)))

    keywords = (
        {"progress": tell}
        if "progress" in function.__code__.co_varnames[: _count(function)]
        else {}
    )
    try:
        return function(*given, **keywords)
    except TrimdiveError:
        raise
    except MemoryError as error:
        raise BoatFileError(TOO_MUCH, name, SMALLER) from error
    except Exception as error:  # it is told, and the page goes on
        what = f"that cannot be calculated ({type(error).__name__})"
        raise BoatFileError(what, name, "Check the figures changed last.") from error


def _count(function: Callable[..., object]) -> int:
    """Return how many names a function takes."""
    code = function.__code__
    return code.co_argcount + code.co_kwonlyargcount


def _watched(of: io.BufferedReader) -> None:
    """End with the program that began this one."""
    of.read(1)
    os._exit(1)


def _bounded() -> None:
    """Stand back behind the page, and take no more memory than allowed, where the system can."""
    with suppress(AttributeError, OSError):
        os.nice(KINDER)
    with suppress(ImportError, OSError, ValueError):
        import resource

        resource.setrlimit(resource.RLIMIT_DATA, (MEMORY, MEMORY))
