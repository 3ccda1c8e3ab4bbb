"""The built-in component kinds of one system: a file of data for each, and the arithmetic beside it."""
