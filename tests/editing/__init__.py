"""Tests of edits by address."""
