"""An event loop for a test, whatever loop its worker has: the browser keeps one of its own."""

import asyncio
from collections.abc import Coroutine
from threading import Thread


def in_a_loop(work: Coroutine[object, object, None]) -> None:
    """Run work to its end in a loop and a thread of its own; what it raises is raised."""
    wrong: list[BaseException] = []

    def run() -> None:
        try:
            asyncio.run(work)
        except BaseException as error:  # told to the test
            wrong.append(error)

    thread = Thread(target=run)
    thread.start()
    thread.join()
    if wrong:
        raise wrong[0]
