"""The page: one boat in the browser, on this machine only, edited by hand and eye.

Loaded by its command alone. What is shown here comes from the assessment; nothing is worked out.
"""
