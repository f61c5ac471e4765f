"""Weight lists with every trait of builders' lists: right, or asked, and none silently wrong.

Mass and moments of each are stated in ``thirty`` by hand; here they are only summed. As a script it
prints the table: ``python -m tests.lists.test_thirty``.
"""

import pytest
from tests.lists.thirty import CASES, Case
from tests.lists.verdicts import stated, verdict


@pytest.mark.parametrize("of", CASES, ids=[of.name for of in CASES])
def test_right_or_asked_and_never_silently_wrong(of: Case) -> None:
    how, sums, why = verdict(of)
    wanted = "refused" if of.refused else "asked" if of.asked else "right"
    assert (how, of.refused or of.asked) == (wanted, of.refused or of.asked), (sums, why)
    assert (of.refused or of.asked) in why


def main() -> None:
    """Print what was stated and what was understood of each list."""
    print(f"{'':3}{'list':68}{'stated g':>10}{'found g':>10}  {'along':>9} {'across':>8} {'up':>8}")
    for k, of in enumerate(CASES, 1):
        how, sums, why = verdict(of)
        right = stated(of)
        cells = (
            "".join(f"{s - r:+9.1f}" for s, r in zip(sums[1:], right[1:], strict=True))
            if sums
            else ""
        )
        print(
            f"{k:2} {of.name[:67]:68}{right[0]:10.1f}{sums[0] if sums else 0:10.1f}  {cells}  {how}"
        )
        if why:
            print(f"{'':6}{why[:170]}")


if __name__ == "__main__":
    main()
