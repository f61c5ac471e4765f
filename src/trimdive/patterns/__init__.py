"""Full-size patterns to cut by: the shapes, before anything is put on paper."""
