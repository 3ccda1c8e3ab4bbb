"""The desk's page in a browser."""
