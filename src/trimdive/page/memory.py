"""Gives memory that is no longer used back to the machine.

What is worked out of a boat comes and goes in pieces of many sizes; the C library keeps what was
freed for later, and a long afternoon of edits would grow for no use.
"""

import ctypes
import gc
import sys
from collections.abc import Generator
from contextlib import contextmanager
from functools import cache

EVERY = 8  # changes of a boat between two times [-]


@cache
def _trim() -> "ctypes._FuncPointer | None":  # pyright: ignore[reportPrivateUsage]
    """Return what gives memory back, where the C library has it (glibc)."""
    if not sys.platform.startswith("linux"):
        return None
    try:
        return ctypes.CDLL(None).malloc_trim
    except (OSError, AttributeError):
        return None


@contextmanager
def settled() -> Generator[None]:
    """Meanwhile take what is there now, the program itself, for good: it is not looked through."""
    gc.collect()
    gc.freeze()
    try:
        yield
    finally:
        gc.unfreeze()


def give_back() -> None:
    """Collect what nothing refers to, and give its memory back."""
    gc.collect()
    if trim := _trim():
        trim(0)
