"""Sheets to print."""

from trimdive.sheets.measuring import PAPERS, measuring_sheet

__all__ = ["PAPERS", "measuring_sheet"]
