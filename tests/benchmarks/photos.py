"""What developing photos costs: `python tests/benchmarks/photos.py [COUNT ...]` (default 100 300); prints a table.

Photos of 12 megapixels are made on the spot from eight distinct pixel contents. Developing (from the report to the
copies on disk, workers and their start included) is set against the bare minimum with the same library in the same
run: decode at a fraction, LANCZOS, encode. Processor time is what counts; memory is the highest sum of the
proportional set sizes (PSS) of the whole process tree, sampled every 20 ms where the system has /proc.
"""

from __future__ import annotations

import datetime as dt
import json
import random
import subprocess
import sys
import tempfile
import time
from pathlib import Path

SIZE = (4032, 3024)
CONTENTS = 8
TARGET = (1472, 1104)


def make(folder: Path, count: int) -> None:
    """`count` distinct files; the noise gives them about the size of a phone's photos."""
    from PIL import Image

    contents = []
    for number in range(CONTENTS):
        source = random.Random(number)  # noqa: S311 - nothing secret
        tiles = Image.new("RGB", (24, 18))
        tiles.putdata([tuple(source.randrange(256) for _ in range(3)) for _ in range(24 * 18)])
        noise = Image.effect_noise(SIZE, 30).convert("RGB")
        contents.append(Image.blend(tiles.resize(SIZE, Image.Resampling.BICUBIC), noise, 0.35))
    encoded: dict[int, bytes] = {}
    for number in range(count):
        which = number % CONTENTS
        if which not in encoded:
            contents[which].save(folder / "made.jpg", quality=88)
            encoded[which] = (folder / "made.jpg").read_bytes()
        (folder / f"{number:04d}.jpg").write_bytes(_varied(encoded[which], number // CONTENTS))
    (folder / "made.jpg").unlink()


def _varied(jpeg: bytes, number: int) -> bytes:
    """The photo with other steps for the lowest frequencies: other pixels at any scale, for no encoding at all."""
    steps = bytearray(jpeg)
    first = jpeg.index(b"\xff\xdb") + 5  # the table follows marker, length and its own number
    for place in (1, 2, 4):
        steps[first + place] += number % 8
        number //= 8
    return bytes(steps)


def floor(folder: Path, scratch: Path) -> None:
    """The bare minimum, in one process."""
    from PIL import Image

    for file in sorted(folder.glob("*.jpg")):
        with Image.open(file) as image:
            image.draft(None, TARGET)
            copy = image.resize(TARGET, Image.Resampling.LANCZOS, reducing_gap=2.0)
            copy.save(scratch / file.name, quality=85, subsampling="4:2:0")


def developed(folder: Path, scratch: Path, *, marks: bool = False) -> None:
    """The stage as it is; with `marks`, every photo has a blur and an inset and is decoded in full."""
    from reporter import door
    from reporter.develop import develop
    from reporter.model.photo import Blur, Inset
    from reporter.model.report import Photo, Report

    laid_on = (Blur(corner=(0.1, 0.1), opposite=(0.2, 0.2)), Inset(at=(0.5, 0.5))) if marks else ()
    photos = [
        Photo(
            file=file.name,
            sha256="",
            width_px=1,
            height_px=1,
            plate=1,
            caption=(),
            alt="x",
            size="full",
            marks=laid_on,
        )
        for file in sorted(folder.glob("*.jpg"))
    ]
    report = Report(
        title="t", subject="s", author="a", number="1", dated=dt.date(2027, 5, 12), running_head="", running_foot="",
        blocks=tuple(photos),
    )  # fmt: skip
    develop(report, folder, scratch)
    door.close()


def read(folder: Path, _scratch: Path) -> None:
    """Header, EXIF and hash of every photo."""
    from reporter import door

    door.read_photos(sorted(folder.glob("*.jpg")), folder, time_zone="UTC")
    door.close()


JOBS = {
    "floor": floor,
    "develop": developed,
    "develop, all with blur and inset": lambda folder, scratch: developed(folder, scratch, marks=True),
    "read": read,
}


def child(name: str, folder: str, scratch: str) -> None:
    """Does one job and prints the processor seconds of the job and its children."""
    import resource

    begin = resource.getrusage(resource.RUSAGE_SELF)
    JOBS[name](Path(folder), Path(scratch))
    spent = 0.0
    for who, before in ((resource.RUSAGE_SELF, begin), (resource.RUSAGE_CHILDREN, None)):
        usage = resource.getrusage(who)
        spent += usage.ru_utime + usage.ru_stime - (before.ru_utime + before.ru_stime if before else 0)
    print(json.dumps(spent))


def measure(name: str, folder: Path, *, memory: bool) -> tuple[float, float, float]:
    """Processor seconds, wall seconds and peak PSS in MB (0 when not asked for) of one job in a fresh process."""
    with tempfile.TemporaryDirectory() as scratch:
        begin, peak = time.perf_counter(), 0.0
        command = [sys.executable, __file__, "--child", name, str(folder), scratch]
        with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as running:
            while memory and running.poll() is None:
                peak = max(peak, tree_pss(running.pid))
                time.sleep(0.02)
            assert running.stdout is not None
            spent = json.loads(running.stdout.read())
        return spent, time.perf_counter() - begin, peak


def tree_pss(pid: int) -> float:
    """PSS of a process and all below it, in MB."""
    total, waiting = 0.0, [pid]
    while waiting:
        each = waiting.pop()
        try:
            rollup = Path(f"/proc/{each}/smaps_rollup").read_text()
            waiting += [
                int(below)
                for task in Path(f"/proc/{each}/task").iterdir()
                for below in (task / "children").read_text().split()
            ]
        except (OSError, ValueError):
            continue
        total += sum(int(line.split()[1]) for line in rollup.splitlines() if line.startswith("Pss:")) / 1024
    return total


def main() -> None:
    """Makes the photos, runs every job, prints the table."""
    counts = [int(word) for word in sys.argv[1:]] or [100, 300]
    with tempfile.TemporaryDirectory() as place:
        print(
            "| photos | job | CPU s | ms a photo | to the floor | wall s | peak PSS MB |\n|---|---|---|---|---|---|---|"
        )
        for count in counts:
            folder = Path(place) / str(count)
            folder.mkdir()
            make(folder, count)
            base = 0.0
            for name in JOBS:
                spent, wall, _ = measure(name, folder, memory=False)
                _, _, peak = measure(name, folder, memory=True)
                base = base or spent
                print(
                    f"| {count} | {name} | {spent:.1f} | {1000 * spent / count:.0f} | {spent / base:.2f} "
                    f"| {wall:.1f} | {peak:.0f} |",
                    flush=True,
                )


if __name__ == "__main__":
    if sys.argv[1:2] == ["--child"]:
        child(*sys.argv[2:])
    else:
        main()
