"""A first report against the cheapest honest shrinking of its photos: `python -m tests.benchmarks.shrink [PHOTOS [ROUNDS]]`.

Run from the project's folder; default 100 photos of 12 megapixels, three rounds, all in one run. The cheapest honest
shrink is one process that does nothing else: each JPEG decoded by libjpeg-turbo at the fewest eighths that are enough,
LANCZOS to 1472 x 1104 dots (170 mm at 220 dpi), encoded at quality 85. simplejpeg decodes where it is installed
(`pip install simplejpeg`), else Pillow at the same three eighths, which gives the same pixels. With insets every photo is
decoded whole and once, shrunk by LANCZOS after a halving, and the piece cut out. Processor time of everything; the last
column is the time by the clock to that of the processors, of the step that develops the photos.
"""

from __future__ import annotations

import subprocess
import sys
import tempfile
import time
from io import BytesIO
from itertools import pairwise
from pathlib import Path
from statistics import median

from PIL import Image

from tests.benchmarks.made import PHOTO, job
from tests.benchmarks.photos import TARGET
from tests.benchmarks.report import ROOT, STEPS, TO_A_PART, environment, run

LABEL = PHOTO.format(number=0).splitlines(keepends=True)[-1]
INSET = "          - {kind: inset, at: [0.5, 0.5], radius: 0.08}\n"


def scaled(data: bytes) -> Image.Image:
    """A photo at three eighths, by the shortest way at hand."""
    try:
        import simplejpeg
    except ImportError:
        from reporter.door.pixels import _scale

        image = Image.open(BytesIO(data))
        _scale(image, TARGET)
        return image
    return Image.fromarray(simplejpeg.decode_jpeg(data, min_width=TARGET[0], min_height=TARGET[1]))


def shrink(folder: str, *, inset: bool) -> None:
    """All photos of a folder, one after another."""
    for file in sorted(Path(folder).glob("*.jpg")):
        data, pieces = file.read_bytes(), []
        if inset:
            whole = Image.open(BytesIO(data))
            pieces.append(whole.crop((1694, 1190, 2338, 1834)))
            pieces.append(whole.resize(TARGET, Image.Resampling.LANCZOS, reducing_gap=1.0))
        else:
            pieces.append(scaled(data).resize(TARGET, Image.Resampling.LANCZOS))
        for piece in pieces:
            piece.save(BytesIO(), "JPEG", quality=85, subsampling="4:2:0")


def floor(folder: Path, how: str, place: Path) -> float:
    """Processor seconds of a process that shrinks the photos and does nothing else; its start is not counted."""
    command = [sys.executable, "-m", "tests.benchmarks.shrink", "--child", how, str(folder)]
    done = subprocess.run(
        command, env=environment(place), cwd=ROOT, check=True, capture_output=True, text=True
    )
    return float(done.stdout)


def child(how: str, folder: str) -> None:
    """Shrinks, and prints the processor seconds."""
    shrink(folder, inset=how == "inset")  # once to load what is loaded once
    begun = time.process_time()
    shrink(folder, inset=how == "inset")
    print(time.process_time() - begun)


def reported(folder: Path, place: Path) -> tuple[float, float, float]:
    """Processor seconds of a whole report and of its photos alone, and the clock to the processors over the latter."""
    begun = run(folder, place / "out.pdf", place)
    steps = dict(zip(("start", *STEPS), pairwise([(0.0, 0.0), *begun]), strict=True))
    (clock, spent), (clock_after, spent_after) = steps["develop"]
    photos = spent_after - spent
    return begun[-1][1], photos, (clock_after - clock) / photos


def compared(name: str, folder: Path, place: Path, rounds: int) -> None:
    """One row: the report and the cheapest in turn, so that both meet the same machine; medians of the rounds."""
    rows = [
        (floor(folder / "photos", "inset" if "inset" in name else "plain", place), *reported(folder, place))
        for _ in range(rounds)
    ]
    cheapest, whole, photos, clock = (median(column) for column in zip(*rows, strict=True))
    ratios = [median(row[at] / row[0] for row in rows) for at in (1, 2)]
    print(
        f"| {name} | {cheapest:.2f} | {whole:.2f} | {ratios[0]:.2f} | {photos:.2f} | {ratios[1]:.2f} | {clock:.2f} |",
        flush=True,
    )


def main() -> None:
    """Makes the photos, shrinks and reports in turn, prints the table."""
    from reporter.registry import find, load

    given = [int(word) for word in sys.argv[1:]]
    count, rounds = (*given, 100, 3)[:2] if len(given) != 1 else (given[0], 3)
    registry = load(find())
    with tempfile.TemporaryDirectory() as name:
        place = Path(name)
        job(place / "small", registry, 2, 1)
        run(place / "small", place / "small.pdf", place)  # compiles the modules
        folder = place / "job"
        job(folder, registry, -(-count // TO_A_PART), count)
        print(
            f"{count} photos, {rounds} rounds\n\n"
            "| report | cheapest shrink, CPU s | whole, CPU s | ratio | photos alone, CPU s | ratio | clock to CPU |\n"
            "|---|---|---|---|---|---|---|"
        )
        compared("as it is", folder, place, rounds)
        findings = folder / "findings.yaml"
        findings.write_text(findings.read_text("utf-8").replace(LABEL, LABEL + INSET), "utf-8")
        compared("an inset on every photo", folder, place, rounds)


if __name__ == "__main__":
    if sys.argv[1:2] == ["--child"]:
        child(*sys.argv[2:])
    else:
        main()
