"""How many figures agree wherever they stand: ``python -m tests.answers.rate [boats …]``.

A line a boat: figures that stand in more than one place, how many times one place was held against
another, and which differ; then all together, and what was looked for in vain.
"""

import sys
import time

from tests.answers.boats import names
from tests.answers.walk import in_vain, walked


def main(chosen: list[str]) -> int:
    """Print the rate of the boats; return 1 where any figure differs."""
    found, start = [], time.process_time()
    for name in chosen or names():
        before = time.process_time()
        one = walked(name)
        found.append(one)
        many = sum(len(places) > 1 for places in one.quoted.values())
        took = time.process_time() - before
        print(
            f"{name}: {many} figures, {one.compared} comparisons, {len(one.differ)} differ "
            f"({took:.1f} s)",
            flush=True,
        )
        for text in one.differ:
            print(f"   {text}")
    compared, differ = (sum(many) for many in zip(
        *((one.compared, len(one.differ)) for one in found), strict=True
    ))  # fmt: skip
    print(
        f"{len(found)} boats, {compared} comparisons, {differ} figures differ, "
        f"{time.process_time() - start:.0f} s of processor time"
    )
    vain = [] if chosen else in_vain(found)
    for name in vain:
        print(f"in vain: {name}")
    return int(bool(differ or vain))


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
