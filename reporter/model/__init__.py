"""The nouns: frozen values with no I/O and no PDF, passed from one stage to the next."""
