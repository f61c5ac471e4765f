"""Readings in the tub, and the boat that they correct."""
