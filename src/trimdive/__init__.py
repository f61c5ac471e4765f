"""Weights, floating and diving of scale model submarines, worked out before they are built."""
