"""What is marked and cut on the skin, placed on it: holes, plate lines, figures of the draught."""
