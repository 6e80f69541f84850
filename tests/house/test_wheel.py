"""The package as it is installed carries everything that the package in the tree has."""

import shutil
import subprocess
import sys
import zipfile
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
PACKAGE = ROOT / "src" / "hollowright"


def test_the_wheel_has_every_file_of_the_package(tmp_path: Path) -> None:
    tree = tmp_path / "tree"
    shutil.copytree(PACKAGE, tree / "src" / "hollowright", ignore=ignored)
    for name in ("pyproject.toml", "README.md", "LICENSE"):
        shutil.copy(ROOT / name, tree)
    command = [sys.executable, "-m", "pip", "wheel", "--quiet", "--no-deps", "--no-index"]
    command += ["--no-build-isolation", "--wheel-dir", str(tmp_path), str(tree)]
    subprocess.run(command, check=True)
    (wheel,) = tmp_path.glob("*.whl")
    with zipfile.ZipFile(wheel) as archive:
        packed = {name for name in archive.namelist() if name.startswith("hollowright/")}
    source = tree / "src"
    files = (file for file in (source / "hollowright").rglob("*") if file.is_file())
    assert packed == {file.relative_to(source).as_posix() for file in files}
    assert "hollowright/py.typed" in packed


ignored = shutil.ignore_patterns("__pycache__", ".*", "*.orig", "*~")
