"""What a hand does on the desk, without a window."""

from trimdive.page.desk import Desk


def put(desk: Desk, field: str, typed: str) -> None:
    """Put what was typed into one field, such as "700 g" into "part[3].mass"."""
    step = desk.put_into(desk.steps[desk.at], field, typed)
    if step is not None:
        desk.take([step])
