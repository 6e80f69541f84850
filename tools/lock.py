"""Write the lock: ``constraints/*.txt``, versions and hashes without any registry's address.

All extras are resolved together, once for every Python and platform that the project allows; the
result is then split, so that each package stands in exactly one file: ``runtime.txt`` (running and
installing), ``dev.txt`` (added by the tests), ``oracle.txt`` (added by the CAD kernel). Pins that
still fit are kept; ``--upgrade`` looks for newer ones.
"""

from __future__ import annotations

import re
import shutil
import subprocess
import sys
import tempfile
import tomllib
import venv
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
LOCK = ROOT / "constraints"
EXTRAS = ("dev", "oracle")
HEADER = "# Written by 'make lock'. Versions and hashes only.\n"


def uv_command(scratch: Path) -> str:
    """Path of uv, which resolves the lock; taken into a scratch environment where it is missing."""
    if found := shutil.which("uv"):
        return found
    venv.create(scratch / "venv", with_pip=True)
    python = scratch / "venv" / "bin" / "python"
    subprocess.run([python, "-m", "pip", "install", "--quiet", "uv"], check=True)
    return str(python.with_name("uv"))


def resolve(uv: str, scratch: Path, wanted: list[str], pins: str) -> dict[str, str]:
    """Locked entries by package name for the requirements ``wanted``, keeping ``pins`` that fit."""
    asked, locked = scratch / "wanted.in", scratch / "locked.txt"
    asked.write_text("\n".join(wanted) + "\n")
    locked.write_text(pins)
    command = [uv, "pip", "compile", str(asked), "--output-file", str(locked), "--quiet"]
    command += ["--universal", "--python-version", "3.11", "--generate-hashes"]
    command += ["--no-config", "--no-header", "--no-annotate"]
    subprocess.run(command, check=True, stdout=subprocess.DEVNULL)
    return entries(locked.read_text())


def entries(text: str) -> dict[str, str]:
    """Text of each package's entry (all its versions and hashes), by package name."""
    found: dict[str, str] = {}
    name = ""
    for line in text.splitlines(keepends=True):
        if match := re.match(r"[a-z0-9][a-z0-9._-]*(?===)", line):
            name = match.group()
        if name and not line.startswith("#"):
            found[name] = found.get(name, "") + line
    return found


def main(arguments: list[str]) -> None:
    """Resolve everything, then write one file for running and one for each extra."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text())
    extras = project["project"]["optional-dependencies"]
    wanted = project["build-system"]["requires"] + project["project"]["dependencies"]
    everything = wanted + [line for extra in EXTRAS for line in extras[extra]]
    old = "" if "--upgrade" in arguments else "".join(f.read_text() for f in LOCK.glob("*.txt"))
    LOCK.mkdir(exist_ok=True)
    with tempfile.TemporaryDirectory() as folder:
        scratch = Path(folder)
        uv = uv_command(scratch)
        pins = "".join(resolve(uv, scratch, everything, old).values())
        written: set[str] = set()
        for file, more in (("runtime", []), *((extra, extras[extra]) for extra in EXTRAS)):
            wanted += more
            found = resolve(uv, scratch, wanted, pins)
            new = [text for name, text in sorted(found.items()) if name not in written]
            written |= found.keys()
            (LOCK / f"{file}.txt").write_text(HEADER + "".join(new))
            print(f"constraints/{file}.txt: {len(new)} packages")


if __name__ == "__main__":
    main(sys.argv[1:])
