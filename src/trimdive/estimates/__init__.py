"""Boats of which little is known yet: a tape, a first boat file, wet hands."""
