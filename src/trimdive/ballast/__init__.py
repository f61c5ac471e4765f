"""Ballast water: how much and where, the way down and up, depth, other waters."""
