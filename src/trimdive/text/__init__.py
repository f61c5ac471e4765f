"""What is told of a boat, in words and tables, the same on the terminal and on the page."""
