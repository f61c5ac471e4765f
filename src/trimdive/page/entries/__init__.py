"""Forms of whole pieces of the boat file: opened over a place, saved together, kept half filled."""
