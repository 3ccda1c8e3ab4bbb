"""Commands that stand in modules of their own; each module has one `register(app)`, and loads nothing heavy before it runs."""
