"""An editor's side of the language server protocol: as much as it takes to time a keystroke."""

import json
import os
import queue
import subprocess
import threading
import time


class Session:
    """One server, greeted. Its messages are stamped when they arrive."""

    def __init__(self, command, folder):
        self.process = subprocess.Popen(
            command, cwd=folder, stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL
        )
        self.arrived = queue.Queue()
        self.asked = 0
        self.version = 0
        threading.Thread(target=self._listen, daemon=True).start()
        root = folder.as_uri()
        self._ask(
            "initialize",
            {
                "processId": os.getpid(),
                "rootUri": root,
                "workspaceFolders": [{"uri": root, "name": folder.name}],
                # No pull diagnostics: then both servers send them by themselves.
                "capabilities": {"textDocument": {"publishDiagnostics": {"versionSupport": True}}},
            },
        )
        self._tell("initialized", {})

    def _listen(self):
        output = self.process.stdout
        while True:
            length = 0
            while (line := output.readline()).strip():
                key, _, value = line.partition(b":")
                if key.lower() == b"content-length":
                    length = int(value)
            if not line:
                return
            body = output.read(length)
            now = time.perf_counter()
            message = json.loads(body)
            if "method" in message and "id" in message:
                items = message.get("params", {}).get("items", [])
                self._send({"id": message["id"], "result": [None] * len(items) if items else None})
            else:
                self.arrived.put((now, message))

    def _send(self, message):
        body = json.dumps({"jsonrpc": "2.0", **message}).encode()
        self.process.stdin.write(b"Content-Length: %d\r\n\r\n" % len(body) + body)
        self.process.stdin.flush()

    def _tell(self, method, params):
        self._send({"method": method, "params": params})

    def _ask(self, method, params):
        self.asked += 1
        self._send({"id": self.asked, "method": method, "params": params})
        return self._wait(lambda message: message.get("id") == self.asked)

    def _wait(self, wanted):
        while True:
            now, message = self.arrived.get(timeout=60)
            if wanted(message):
                return now, message

    def _diagnostics(self, uri):
        """The diagnostics of this version of the text, and when they came."""

        def mine(message):
            params = message.get("params", {})
            return (
                message.get("method") == "textDocument/publishDiagnostics"
                and params["uri"] == uri
                and params.get("version") == self.version
            )

        now, message = self._wait(mine)
        return now, message["params"]["diagnostics"]

    def open(self, path, language, text):
        """Opens a text; its diagnostics."""
        uri = path.as_uri()
        document = {"uri": uri, "languageId": language, "version": self.version, "text": text}
        self._tell("textDocument/didOpen", {"textDocument": document})
        return self._diagnostics(uri)[1]

    def replace(self, path, line, character, text):
        """Replaces one character; seconds until its diagnostics, and those."""
        self.version += 1
        uri = path.as_uri()
        span = {
            "start": {"line": line, "character": character},
            "end": {"line": line, "character": character + 1},
        }
        change = {
            "textDocument": {"uri": uri, "version": self.version},
            "contentChanges": [{"range": span, "text": text}],
        }
        started = time.perf_counter()
        self._tell("textDocument/didChange", change)
        now, told = self._diagnostics(uri)
        return now - started, told

    def peak_memory(self):
        """The most memory that it held so far, in MB."""
        with open(f"/proc/{self.process.pid}/status", encoding="ascii") as status:
            for line in status:
                if line.startswith("VmHWM:"):
                    return int(line.split()[1]) / 1024
        return float("nan")

    def end(self):
        """Says good-bye."""
        self._ask("shutdown", None)
        self._tell("exit", None)
        self.process.stdin.close()
        self.process.wait(10)
