"""Tests of README, of the guides in docs, and of what a developer sets up."""
