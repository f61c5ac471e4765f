"""Where cylinders, and what lies in them, go along the boat so that she needs least lead."""
