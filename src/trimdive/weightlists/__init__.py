"""Weight lists as builders keep them (CSV, XLSX): read, shown as understood, taken over, written.

``understood`` shows how every column and row was read and whether the list adds up; ``parts_of``
makes pieces of a boat file of it; ``written`` writes the ledger as such a list.
"""

from trimdive.errors import ListError
from trimdive.weightlists.export import csv_of, table_of, written, xlsx_of
from trimdive.weightlists.parts import Change, Plan, parts_of, plan_of, taken_over
from trimdive.weightlists.preview import read_list, understood
from trimdive.weightlists.records import (
    Answers,
    Ask,
    ColumnRead,
    Item,
    ListPreview,
    RowRead,
    SumRead,
)

__all__ = [
    "Answers",
    "Ask",
    "Change",
    "ColumnRead",
    "Item",
    "ListError",
    "ListPreview",
    "Plan",
    "RowRead",
    "SumRead",
    "csv_of",
    "parts_of",
    "plan_of",
    "read_list",
    "table_of",
    "taken_over",
    "understood",
    "written",
    "xlsx_of",
]
