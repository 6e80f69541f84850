"""One line of progress on a terminal, written over; Ctrl-C that stops a search, not a program."""

from __future__ import annotations

import signal
import sys
import threading
from collections.abc import Callable
from time import monotonic
from types import FrameType, TracebackType
from typing import Self

OFTEN = 0.2
"""The line is written anew no more often than this [s]."""
WIDTH = 78


class Progress:
    """Shows how long a search has run and what is best so far; Ctrl-C ends the search.

    Nothing is shown where standard error isn't a terminal. A second Ctrl-C stops the program.
    """

    def __init__(self, seconds: float) -> None:
        self.seconds = seconds
        self.stopped = False
        self._best = ""
        self._began = monotonic()
        self._shown = -OFTEN
        self._live = sys.stderr.isatty()
        self._before: Callable[[int, FrameType | None], object] | int | None = None

    def __enter__(self) -> Self:
        if threading.current_thread() is threading.main_thread():
            self._before = signal.signal(signal.SIGINT, self._interrupted)
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        fault: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        if self._before is not None:
            signal.signal(signal.SIGINT, self._before)
        if self._live:
            sys.stderr.write(f"\r{' ' * WIDTH}\r")
            sys.stderr.flush()

    def _interrupted(self, number: int, frame: FrameType | None) -> None:
        """The first Ctrl-C keeps the best so far; the next one is what it always was."""
        del number, frame
        if self.stopped:
            raise KeyboardInterrupt
        self.stopped = True

    def better(self, best: str) -> None:
        """Tell what is best now, in words."""
        self._best = best
        self._write(anyway=True)

    def stop(self) -> bool:
        """Whether to stop; asked now and then, which keeps the line moving."""
        self._write()
        return self.stopped

    def _write(self, anyway: bool = False) -> None:
        now = monotonic() - self._began
        if not self._live or (not anyway and now - self._shown < OFTEN):
            return
        self._shown = now
        line = f"searching, {now:.0f} of {self.seconds:.0f} s (Ctrl-C keeps the best): {self._best}"
        sys.stderr.write(f"\r{line[:WIDTH].ljust(WIDTH)}")
        sys.stderr.flush()
