"""Lead, foam and loose pieces: where they go."""
