"""Engines in processes of their own: asked once, they answer line by line till they are ended."""

from __future__ import annotations

import contextlib
import json
import os
import queue
import subprocess
import sys
import threading
from collections.abc import Mapping
from typing import IO, Any, Self

ONE_THREAD = {"OPENBLAS_NUM_THREADS": "1", "OMP_NUM_THREADS": "1"}
"""An engine's small sums are slower on two threads than on one."""


class Processes:
    """Engines' processes by number; all are ended when the block is left."""

    def __init__(self) -> None:
        self._lines: queue.Queue[tuple[int, str]] = queue.Queue()
        self._all: list[_Process] = []

    def start(self, module: str, task: Mapping[str, Any]) -> int:
        """Ask a task of a new process of a module; the process's number."""
        number = len(self._all)
        self._all.append(_Process(number, module, task, self._lines))
        return number

    def answer(self, wait: float) -> tuple[int, Mapping[str, Any]] | None:
        """The next answer of any of them within so many seconds; the last one of each: `ended`."""
        try:
            number, line = self._lines.get(timeout=wait)
        except queue.Empty:
            return None
        answer: dict[str, Any] = json.loads(line)
        return number, answer

    def end(self, number: int) -> None:
        """End one of them, whatever it does."""
        self._all[number].end()

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        for process in self._all:
            process.end()


class _Process:
    """One process, and a thread that passes on what it says."""

    def __init__(
        self,
        number: int,
        module: str,
        task: Mapping[str, Any],
        lines: queue.Queue[tuple[int, str]],
    ) -> None:
        self._number, self._lines = number, lines
        self._process = subprocess.Popen(  # noqa: S603
            [sys.executable, "-P", "-m", module],  # -P: no module of the folder it runs in
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            env=os.environ | ONE_THREAD,
            text=True,
        )
        self._input, self._output = _there(self._process.stdin), _there(self._process.stdout)
        self._reader = threading.Thread(target=self._read, daemon=True)
        self._reader.start()
        with contextlib.suppress(OSError):  # it ended at once: its answer tells
            self._input.write(json.dumps(task) + "\n")
            self._input.flush()

    def _read(self) -> None:
        said = False
        for line in self._output:
            said = said or line.startswith(('{"done"', '{"failed"'))
            self._lines.put((self._number, line))
        why = {} if said else {"failed": "the solver ended without an answer"}
        self._lines.put((self._number, json.dumps({"ended": True, **why})))

    def end(self) -> None:
        """End it, whatever it does; twice does no harm."""
        self._process.kill()
        self._process.wait()
        self._reader.join(1.0)
        for pipe in (self._input, self._output):
            with contextlib.suppress(OSError):  # what an ended process hadn't read
                pipe.close()


def _there(pipe: IO[str] | None) -> IO[str]:
    if pipe is None:
        raise ValueError("the solver's process has no pipes")
    return pipe
