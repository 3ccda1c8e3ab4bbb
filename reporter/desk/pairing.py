"""Other devices on the same network: the address they reach this computer at, and the picture they scan.

In: the port. Out: the computer's own address, and a code as a link and as a QR picture (ISO/IEC 18004, by segno).
"""

from __future__ import annotations

import io
import socket
from dataclasses import dataclass
from typing import Any

from reporter.desk.keys import Code

NOWHERE = ("192.0.2.1", 9)
"""An address for documentation (RFC 5737): nothing is sent there, the system only says which way it would go."""


@dataclass(frozen=True)
class Network:
    """Where other devices find the desk."""

    host: str

    def offered(self, code: Code) -> dict[str, Any]:
        """A code as the page shows it."""
        import segno

        url = f"http://{self.host}/#pair={code.code}"
        picture = io.BytesIO()
        segno.make(url, error="m").save(picture, kind="svg", scale=8, border=4, xmldecl=False, svgclass="qr")
        return {"svg": picture.getvalue().decode(), "url": url, "code": code.code, "until": code.until}


def own_address() -> str:
    """The address of this computer on its network; that of itself alone where there is no network."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect(NOWHERE)
            return str(probe.getsockname()[0])
        except OSError:
            return "127.0.0.1"
