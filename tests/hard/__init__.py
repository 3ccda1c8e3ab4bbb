"""A fuzz and fault run of the whole program: folders, photos, templates and PDFs spoilt at random, runs cut off at any moment."""
