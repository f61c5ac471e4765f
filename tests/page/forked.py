"""Processes for work apart, forked from one that has loaded the program already.

Each that is begun as the program begins it loads the program first, for a second and a half, and
the tests of the page begin a hundred. What is forked is as much a process of its own: the same
``work`` reads what it is handed, bounds itself, and is ended in the same way.
"""

import os
import signal
import socket
import struct
import subprocess
import sys
import threading
from collections.abc import Generator
from contextlib import contextmanager, suppress
from importlib import import_module
from pathlib import Path
from select import select
from typing import NoReturn

ROOT = Path(__file__).parents[2]
BEGIN = "import sys; sys.path[:] = {path!r}; from tests.page.forked import serve; serve()"
TOLD = struct.Struct(">q")  # first which process it is, in the end how it ended
ALONE = {"OPENBLAS_NUM_THREADS": "1", "OMP_NUM_THREADS": "1"}  # what forks has no other thread
NEEDED = ("trimdive.page.bringing", "trimdive.page.places")  # by all work apart
CAN_FORK = os.name == "posix"


class Forked:
    """A process that waits for its work, with what is asked of ``subprocess.Popen``."""

    def __init__(self, ask: socket.socket) -> None:
        takes, writes = os.pipe()
        reads, answers = os.pipe()
        self._told, tells = os.pipe()
        socket.send_fds(ask, [b"1"], [takes, answers, tells])
        for one in (takes, answers, tells):
            os.close(one)
        self.stdin, self.stdout = os.fdopen(writes, "wb"), os.fdopen(reads, "rb")
        self.pid = self._hear()
        self.returncode: int | None = None
        self._lock = threading.Lock()

    def _hear(self) -> int:
        return int(TOLD.unpack(os.read(self._told, TOLD.size))[0])

    def poll(self) -> int | None:
        """Return how it ended; None while it runs."""
        return self.wait(0.0)

    def wait(self, timeout: float | None = None) -> int | None:
        """Wait until it has ended, so many seconds at most, and return how; None while it runs."""
        with self._lock:
            if self.returncode is None and select([self._told], [], [], timeout)[0]:
                self.returncode = self._hear()
                os.close(self._told)
            return self.returncode

    def kill(self) -> None:
        """End it at once."""
        if self.poll() is None:
            with suppress(ProcessLookupError):
                os.kill(self.pid, signal.SIGKILL)


@contextmanager
def forking() -> Generator[socket.socket]:
    """Yield the end at which processes are asked for."""
    ask, asked = socket.socketpair()
    program = BEGIN.format(path=[str(ROOT), *sys.path])
    with subprocess.Popen(
        [sys.executable, "-c", program], stdin=asked.fileno(), env={**os.environ, **ALONE}
    ):
        asked.close()
        try:
            yield ask
        finally:
            ask.close()  # which ends it


def serve() -> None:
    """Load the program, and fork whenever a process is asked for."""
    for name in NEEDED:
        import_module(name)
    with socket.socket(fileno=os.dup(0)) as asked:
        while True:
            told, given, *_ = socket.recv_fds(asked, 1, 3)
            if not told:
                return
            if os.fork() == 0:
                asked.close()
                _watch(*given)
            for one in given:
                os.close(one)
            with suppress(ChildProcessError):
                while os.waitpid(-1, os.WNOHANG)[0]:
                    pass  # another of those who watch is done


def _watch(takes: int, answers: int, tells: int) -> NoReturn:
    """Fork the process itself; tell which it is, and how it ended."""
    if (pid := os.fork()) == 0:
        os.close(tells)
        _work(takes, answers)
    for one in (0, takes, answers):
        os.close(one)
    with suppress(BrokenPipeError):
        os.write(tells, TOLD.pack(pid))
        os.write(tells, TOLD.pack(os.waitstatus_to_exitcode(os.waitpid(pid, 0)[1])))
    os._exit(0)


def _work(takes: int, answers: int) -> NoReturn:
    """Do the work, as a process that was begun for it."""
    from trimdive.page.apart import work

    nowhere = os.open(os.devnull, os.O_WRONLY)
    for one, at in ((takes, 0), (answers, 1), (nowhere, 2)):
        os.dup2(one, at)
        os.close(one)
    status = 1
    with suppress(Exception):
        work()
        status = 0
    os._exit(status)
