"""What goes into the hull, with how much room around it, and whether it comes out again."""
