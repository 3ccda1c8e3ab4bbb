"""Under `ulimit -v` a thread takes no heap of its own, for which there may be no addresses left."""

from __future__ import annotations

import platform
import subprocess
import sys

import pytest

from tests.living import PATIENCE

GROWN = """
import resource, sys, threading
from pathlib import Path
from reporter.door import workers
resource.setrlimit(resource.RLIMIT_AS, (2**30, 2**30))
threading.stack_size(2**20)
if "shared" in sys.argv:
    workers._share_one_heap()
pages = lambda: int(Path("/proc/self/statm").read_text().split()[0])
done, go = threading.Event(), threading.Event()
def work():
    kept = [bytes(9000) for _ in range(20)]
    done.set(); go.wait()
before = pages()
threading.Thread(target=work).start()
done.wait()
print((pages() - before) * resource.getpagesize() // 2**20)
go.set()
"""


@pytest.mark.skipif(platform.libc_ver()[0] != "glibc", reason="heaps of glibc")
def test_a_thread_shares_the_heap_where_memory_is_counted_out() -> None:
    grown = {
        how: int(
            subprocess.run(
                [sys.executable, "-P", "-c", GROWN, how], capture_output=True, check=True, timeout=PATIENCE
            ).stdout
        )
        for how in ("shared", "own")
    }
    assert grown["shared"] < 10
    assert grown["own"] > 60
