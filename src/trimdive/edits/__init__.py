"""Puts a boat right: placing, what hinders it, and the changes written into her file."""
