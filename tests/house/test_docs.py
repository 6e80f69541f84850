"""The documents that come from the code are as the code says."""

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]


def test_no_document_is_stale() -> None:
    command = [sys.executable, "tools/docs.py", "--check"]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr
