"""Make ``.venv`` and install into it what a make target needs, from the lock only.

Run by whatever ``python3`` the machine has, so it uses nothing but the standard library, and it
can still say what is wrong when that Python is an old one.
Usage: ``environment.py runtime|dev|oracle``.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
VENV = ROOT / ".venv"
INSIDE = str(VENV / "bin" / "python")
LEVELS = ("runtime", "dev", "oracle")
MINORS = (11, 12, 13, 14)  # of Python 3


def use_another_python() -> None:
    """Start again with a Python that the project runs on, or stop and say what is needed."""
    for minor in reversed(MINORS):
        other = shutil.which(f"python3.{minor}")
        if other and answers(other, ""):
            os.execv(other, [other, *sys.argv])
    given = ".".join(map(str, sys.version_info[:2]))
    sys.exit(
        f"Hollowright needs Python 3.{MINORS[0]} to 3.{MINORS[-1]}; {sys.executable} is {given}.\n"
        "Install one, or name it in the command: make demo PYTHON=python3.12"
    )


def answers(python: str, code: str) -> bool:
    """Whether a Python is there and runs ``code`` to a good end."""
    try:
        return subprocess.call([python, "-c", code], stderr=subprocess.DEVNULL) == 0
    except OSError:
        return False


def run(command: list[str], fix: str) -> None:
    """Run a command quietly; if it fails, show what it said and what to do."""
    done = subprocess.run(
        command, check=False, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True
    )
    if done.returncode:
        sys.exit(f"{done.stdout}\nSetting up failed at: {' '.join(command)}\n{fix}")


def make_environment() -> None:
    """Make ``.venv`` anew; where Python came without its own pip, the machine's pip lends one."""
    shutil.rmtree(VENV, ignore_errors=True)
    fix = "If Python came from Debian or Ubuntu: apt-get install python3-venv"
    if answers(sys.executable, "import ensurepip"):
        run([sys.executable, "-m", "venv", str(VENV)], fix)
        return
    run([sys.executable, "-m", "venv", "--without-pip", str(VENV)], fix)
    run([sys.executable, "-m", "pip", "--python", INSIDE, "install", "--quiet", "pip"], fix)


def install(levels: tuple[str, ...]) -> None:
    """Install the locked packages of these levels, then the project itself."""
    pip = [INSIDE, "-m", "pip", "--disable-pip-version-check", "--no-input", "install", "--quiet"]
    locked = [word for level in levels for word in ("-r", f"constraints/{level}.txt")]
    fix = "The first set-up needs the network. When that is mended, give the same command again."
    run([*pip, "--only-binary", ":all:", "--require-hashes", *locked], fix)
    run([*pip, "--no-deps", "--no-build-isolation", "--no-index", "-e", "."], fix)


def main() -> None:
    """Bring ``.venv`` to the level asked for and leave the stamps that make looks at."""
    if len(sys.argv) != 2 or sys.argv[1] not in LEVELS:
        sys.exit("usage: environment.py " + "|".join(LEVELS))
    if sys.version_info[1] not in MINORS:
        use_another_python()
    os.chdir(ROOT)
    print(f"Setting up for '{sys.argv[1]}'; the first time takes a minute ...", flush=True)
    if not answers(INSIDE, "import pip, sys; sys.exit(sys.version_info < (3, 11))"):
        make_environment()
    levels = LEVELS[: LEVELS.index(sys.argv[1]) + 1]
    install(levels)
    for level in levels:
        (VENV / f".{level}").write_text("")


if __name__ == "__main__":
    main()
