"""Lists thrown by dice: right, or asked, never silently wrong (``dice`` says what they hold).

The long run, with its figures: ``python -m tests.lists.test_dice 3000``.
"""

import sys
from collections import Counter

import pytest
from tests.lists.dice import thrown
from tests.lists.verdicts import verdict

PART, LISTS = 30, 150


@pytest.mark.parametrize("start", range(0, LISTS, PART))
def test_no_list_is_silently_wrong(start: int) -> None:
    wrong = [seed for seed in range(start, start + PART) if verdict(thrown(seed))[0] == "WRONG"]
    assert wrong == []


def test_most_are_right_without_a_question() -> None:
    right = sum(verdict(thrown(seed))[0] == "right" for seed in range(LISTS))
    assert right > 0.8 * LISTS


def main() -> None:
    """Throw as many lists as asked for, and print what came of them."""
    came: Counter[str] = Counter()
    for seed in range(int(sys.argv[1]) if len(sys.argv) > 1 else 1000):
        how, _, why = verdict(thrown(seed))
        came[how] += 1
        if how != "right":
            print(f"{seed}: {how} {why[:200]}")
    print(dict(came))


if __name__ == "__main__":
    main()
