"""The yaml-language-server from the npm registry, as an editor would talk to it. For tests."""

from __future__ import annotations

import json
import shutil
import subprocess
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

HOME = Path(tempfile.gettempdir()) / "bench-expert-yaml-language-server"
NODE = shutil.which("node")


def installed() -> Path:
    """The server's program, installed into a temporary folder unless it is there from an earlier run."""
    program = HOME / "node_modules" / "yaml-language-server" / "bin" / "yaml-language-server"
    if not program.exists():
        npm = shutil.which("npm")
        assert npm, "node is there, but npm is not: the schemas cannot be tested in an editor's server"
        command = [npm, "install", "--no-audit", "--no-fund", "--prefix", str(HOME), "yaml-language-server"]
        HOME.mkdir(parents=True, exist_ok=True)
        subprocess.run(command, check=True, capture_output=True, timeout=300)
    return program


class Server:
    """One running server. Lines and columns count from 0 here, as in the protocol."""

    def __init__(self, process: subprocess.Popen[bytes]) -> None:
        self._process = process
        self._number = 0
        self._told: list[dict[str, Any]] = []
        self._settings: dict[str, Any] = {}

    def start(self, schemas: dict[str, str]) -> None:
        """`schemas`: path of a schema -> glob of the files that it is for."""
        self.ask("initialize", {"processId": None, "rootUri": None, "capabilities": {}})
        self.tell("initialized", {})
        self._settings = {"schemas": schemas, "validate": True, "hover": True, "completion": True}
        self.tell("workspace/didChangeConfiguration", {"settings": {"yaml": self._settings}})
        while not self._answer(message := self._read()):  # it asks for its settings now
            self._told.append(message)

    def open(self, uri: str, text: str) -> list[dict[str, Any]]:
        """Open a text; what the server finds wrong with it."""
        document = {"uri": uri, "languageId": "yaml", "version": 1, "text": text}
        self.tell("textDocument/didOpen", {"textDocument": document})
        while True:
            message = self._told.pop(0) if self._told else self._read()
            if message.get("method") == "textDocument/publishDiagnostics" and message["params"]["uri"] == uri:
                found: list[dict[str, Any]] = message["params"]["diagnostics"]
                return found
            self._answer(message)

    def at(self, what: str, uri: str, line: int, column: int) -> Any:
        """Completion or hover at a place."""
        place = {"line": line, "character": column}
        return self.ask(f"textDocument/{what}", {"textDocument": {"uri": uri}, "position": place})

    def ask(self, method: str, params: Any) -> Any:
        self._number += 1
        self._send({"id": self._number, "method": method, "params": params})
        while True:
            message = self._read()
            if message.get("id") == self._number and "method" not in message:
                assert "error" not in message, message
                return message["result"]
            if not self._answer(message):
                self._told.append(message)

    def tell(self, method: str, params: Any) -> None:
        self._send({"method": method, "params": params})

    def _answer(self, message: dict[str, Any]) -> bool:
        """The server asks for its settings; whatever else it asks is answered with nothing."""
        if "id" not in message or "method" not in message:
            return False
        wanted = message.get("params", {}).get("items", [])
        result = [self._settings if item.get("section") == "yaml" else None for item in wanted]
        self._send({"id": message["id"], "result": result or None})
        return True

    def _send(self, message: dict[str, Any]) -> None:
        assert self._process.stdin is not None
        data = json.dumps({"jsonrpc": "2.0", **message}).encode()
        self._process.stdin.write(f"Content-Length: {len(data)}\r\n\r\n".encode() + data)
        self._process.stdin.flush()

    def _read(self) -> dict[str, Any]:
        assert self._process.stdout is not None
        length = 0
        while line := self._process.stdout.readline().strip():
            name, _, value = line.partition(b":")
            if name.lower() == b"content-length":
                length = int(value)
        assert length, "the server ended"
        message: dict[str, Any] = json.loads(self._process.stdout.read(length))
        return message


@contextmanager
def running(schemas: dict[str, str]) -> Iterator[Server]:
    """A server that knows these schemas; ended afterwards."""
    assert NODE is not None
    command = [NODE, str(installed()), "--stdio"]
    with subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL) as process:
        try:
            server = Server(process)
            server.start(schemas)
            yield server
        finally:
            process.kill()
