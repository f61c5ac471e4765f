"""Prints the table: ``python -m benchmarks``. Nothing here fails when a time is missed."""

from benchmarks import bench, cut, dive, fit, page, place, plant, rest
from benchmarks.timing import print_table


def main() -> None:
    """Measure, and print what came of it."""
    lines: list[list[str]] = []
    answer: list[str] = []
    for subject in (cut, rest, dive, place, plant, bench, fit, page):
        subject_lines, subject_text = subject.rows()
        lines += subject_lines
        answer += subject_text
    print_table(lines)
    print(
        "\n".join(["", "Ratios are the other time over ours, in one run on one machine.", *answer])
    )


if __name__ == "__main__":
    main()
