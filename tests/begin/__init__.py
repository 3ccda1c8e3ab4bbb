"""Tests of how a job folder is begun."""
