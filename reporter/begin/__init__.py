"""The beginnings of a job folder: what is known of the boat, the parts that she has, the photos proposed to them.

Comes in: answers about the boat, the kinds that are installed, a heap of photos. Goes out: a folder that reads. It judges
nothing, and writes only a folder that is not there yet.
"""

from reporter.begin.answers import Answers, stops_of, systems_of
from reporter.begin.beginning import Begun, begin, empty_job, refuse_if_taken

__all__ = ["Answers", "Begun", "begin", "empty_job", "refuse_if_taken", "stops_of", "systems_of"]
