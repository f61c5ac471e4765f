"""Shapes: lines become surfaces, meshes are read, solids are cut, and what shares room is found."""
