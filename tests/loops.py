"""An event loop for a test, beside that which the browser of the tests keeps in its worker."""

import asyncio
from collections.abc import Coroutine, Iterator
from contextlib import contextmanager


@contextmanager
def apart() -> Iterator[None]:
    """Let a loop be run as if the thread had none; afterwards it has the browser's again."""
    own = asyncio._get_running_loop()
    asyncio._set_running_loop(None)
    try:
        yield
    finally:
        asyncio._set_running_loop(own)


def in_a_loop(work: Coroutine[object, object, None]) -> None:
    """Run work to its end in a loop of its own."""
    with apart():
        asyncio.run(work)
