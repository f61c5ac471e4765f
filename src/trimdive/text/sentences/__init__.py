"""The words for facts: a file a subject, a function a kind."""
