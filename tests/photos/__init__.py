"""Tests of the door to photo files and of developing."""
