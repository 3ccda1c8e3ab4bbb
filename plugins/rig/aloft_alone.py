"""Furlers, terminals and running backstays: observations decide, and what is aloft is missing while seen from deck.

Comes in: Evidence of one of them, or of a like set. Goes out: what was not seen from close by. No published figure was
read for how far a swage may be out of line; any one broken wire in a pendant condemns. A furler hides its stay.
"""

from __future__ import annotations

from reporter.contract import aloft_alone

assess = aloft_alone
