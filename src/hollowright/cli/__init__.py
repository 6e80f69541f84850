"""The command line: parse, call, show. `main` is the console script."""

from hollowright.cli.main import main

__all__ = ["main"]
