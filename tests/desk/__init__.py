"""Tests of the desk's server."""
