"""A headless Chromium, driven over its debugging pipe: pages of ours are laid out, printed and asked about."""

from __future__ import annotations

import base64
import json
import os
import shutil
import subprocess
import tempfile
from pathlib import Path
from types import TracebackType
from typing import Any, Self

OPTIONS = (
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--hide-scrollbars",
    "--remote-debugging-pipe",
)


class Browser:
    """One page of one browser. Requests that the page makes are noted in `fetched`."""

    def __init__(self) -> None:
        program = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
        assert program, "the pages are tested in Chromium: apt-get install chromium"
        self._profile = tempfile.TemporaryDirectory(ignore_cleanup_errors=True)
        to_read, self._to = os.pipe()
        self._from, to_write = os.pipe()

        def as_it_wants() -> None:
            # The browser reads from 3 and writes to 4; first out of the way, as one may be the other.
            high = (os.dup(to_read), os.dup(to_write))
            os.dup2(high[0], 3)
            os.dup2(high[1], 4)

        self._process = subprocess.Popen(
            [program, *OPTIONS, f"--user-data-dir={self._profile.name}", "about:blank"],
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            close_fds=False,
            preexec_fn=as_it_wants,
        )
        os.close(to_read)
        os.close(to_write)
        self._rest = b""
        self._number = 0
        self.fetched: list[str] = []
        target = next(t for t in self.call("Target.getTargets")["targetInfos"] if t["type"] == "page")
        attached = self.call("Target.attachToTarget", targetId=target["targetId"], flatten=True)
        self._session = attached["sessionId"]
        for domain in ("Page", "Runtime", "Network", "Accessibility"):
            self.page(f"{domain}.enable")

    _session = ""

    def __enter__(self) -> Self:
        return self

    def __exit__(self, kind: type[BaseException] | None, value: BaseException | None, at: TracebackType | None) -> None:
        os.close(self._to)
        self._process.terminate()
        self._process.wait(20)
        os.close(self._from)
        self._profile.cleanup()

    def call(self, method: str, **parameters: Any) -> dict[str, Any]:
        """Ask the browser, or with `_session` set the page, and wait for its answer."""
        self._number += 1
        asked = {"id": self._number, "method": method, "params": parameters}
        if self._session:
            asked["sessionId"] = self._session
        os.write(self._to, json.dumps(asked).encode() + b"\0")
        while True:
            message = self._next()
            if message.get("id") == self._number:
                assert "error" not in message, message["error"]
                result: dict[str, Any] = message["result"]
                return result

    page = call

    def _next(self) -> dict[str, Any]:
        while b"\0" not in self._rest:
            piece = os.read(self._from, 1 << 16)
            assert piece, "the browser went away"
            self._rest += piece
        raw, _, self._rest = self._rest.partition(b"\0")
        message: dict[str, Any] = json.loads(raw)
        if message.get("method") == "Network.requestWillBeSent":
            self.fetched.append(message["params"]["request"]["url"])
        self.loaded |= message.get("method") == "Page.loadEventFired"
        return message

    loaded = False

    def show(self, page: Path, width: int, height: int = 800) -> None:
        """Lay a page out at this width."""
        self.page(
            "Emulation.setDeviceMetricsOverride", width=width, height=height, deviceScaleFactor=1, mobile=width < 500
        )
        self.loaded = False
        self.fetched.clear()
        self.page("Page.navigate", url=page.as_uri())
        while not self.loaded:
            self._next()

    def ask(self, script: str) -> Any:
        """The value of a piece of JavaScript; the page itself has none and allows none."""
        answer = self.page("Runtime.evaluate", expression=script, returnByValue=True)
        assert "exceptionDetails" not in answer, answer
        return answer["result"].get("value")

    def pdf(self, width: float, height: float) -> bytes:
        """The page printed on paper of this size [inch]."""
        printed = self.page("Page.printToPDF", paperWidth=width, paperHeight=height, preferCSSPageSize=False)
        return base64.b64decode(printed["data"])

    def press_tab(self) -> None:
        for kind in ("keyDown", "keyUp"):
            self.page("Input.dispatchKeyEvent", type=kind, key="Tab", code="Tab", windowsVirtualKeyCode=9)
