"""What she weighs, how she lies, and how stiffly."""
