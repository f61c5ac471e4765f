"""How fast it is beside general libraries and plain loops, as ratios measured in one run."""
