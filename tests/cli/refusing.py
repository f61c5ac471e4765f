"""A command that is refused."""

from typer.testing import Result


def refused(result: Result) -> str:
    """Return the one sentence with which it refused."""
    assert result.exit_code == 2, result.output
    assert "Traceback" not in result.output
    (line,) = result.stderr.splitlines()
    return line
