"""Everything that displaces water, as closed meshes, and what a plane leaves of it."""
