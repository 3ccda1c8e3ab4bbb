"""README's pictures of the desk, made anew: `python -m tests.desk_page.shots`."""

from __future__ import annotations

import io
import shutil
import signal
import tempfile
from pathlib import Path

from PIL import Image

from tests.browsing import chromium
from tests.desk.conftest import free_port
from tests.desk_page.conftest import ROOT, Server, Windows

VIEWS = {
    "desk_walk": ("walk",),
    "desk_part": ("part", "chain"),
    "desk_photo": ("photo", "wheel_hub.jpg", "wheel"),
    "desk_photos": ("photos",),
}
WIDE = 720
COLOURS = 200


def main() -> None:
    """Write one picture for each view of the demo."""
    with tempfile.TemporaryDirectory() as scratch, chromium() as browser:
        folder = Path(scratch) / "demo_job"
        shutil.copytree(ROOT / "demo_job", folder)
        server = Server(folder, free_port())
        server.start()
        hands = Windows(browser).first(server, width=1200, height=820, touch=False)
        for name, view in VIEWS.items():
            hands.go(*view)
            hands.page.wait_for_timeout(2500)
            shot = Image.open(io.BytesIO(hands.page.screenshot())).convert("RGB")
            small = shot.resize((WIDE, round(shot.height * WIDE / shot.width)), Image.Resampling.LANCZOS)
            small.quantize(COLOURS, Image.Quantize.MAXCOVERAGE).save(
                ROOT / f"tests/pages/{name}.png", optimize=True
            )
        server.kill(signal.SIGTERM)


if __name__ == "__main__":
    main()
