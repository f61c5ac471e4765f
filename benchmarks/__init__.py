"""How fast the cut and the rest are beside general libraries, as ratios measured in one run."""
