"""The lock and what the project says it needs belong together."""

import ast
import re
import sys
import tomllib
from importlib.metadata import packages_distributions
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

ROOT = Path(__file__).resolve().parents[2]
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
LEVELS = ("runtime", "dev", "oracle")
EXTRAS = PROJECT["optional-dependencies"]
# Used without being imported by name: its script is served as a file; forms are read by starlette.
UNSEEN = {"django-js-lib-htmx", "python-multipart"}


def lock(level: str) -> str:
    return (ROOT / "constraints" / f"{level}.txt").read_text(encoding="utf-8")


def locked(level: str) -> dict[str, list[str]]:
    """Versions of each package in one file of the lock."""
    found: dict[str, list[str]] = {}
    for name, version in re.findall(r"^([a-z0-9._-]+)==(\S+)", lock(level), re.MULTILINE):
        found.setdefault(name, []).append(version)
    return found


@pytest.mark.parametrize("level", LEVELS)
def test_only_versions_and_hashes(level: str) -> None:
    version = r"[a-z0-9._-]+==[\w.+!]+( ; [\w\s.<>='!()]+)? \\"
    checksum = r"    --hash=sha256:[0-9a-f]{64}( \\)?"
    other = [
        line
        for line in lock(level).splitlines()[1:]
        if not re.fullmatch(f"{version}|{checksum}", line)
    ]
    assert other == []
    assert re.search(r"://|@|index|find-links", lock(level)) is None


@pytest.mark.parametrize("level", LEVELS)
def test_every_version_has_a_hash(level: str) -> None:
    entries = re.split(r"^(?=[a-z])", lock(level), flags=re.MULTILINE)[1:]
    assert entries
    assert [entry for entry in entries if "--hash=sha256:" not in entry] == []


def test_each_package_is_locked_once() -> None:
    names = [name for level in LEVELS for name in locked(level)]
    assert len(names) == len(set(names))


@pytest.mark.parametrize("level", LEVELS)
def test_what_is_asked_for_is_locked(level: str) -> None:
    asked = PROJECT["dependencies"] if level == "runtime" else EXTRAS[level]
    pins = {name: pin for known in LEVELS for name, pin in locked(known).items()}
    for requirement in map(Requirement, asked):
        versions = pins.get(canonicalize_name(requirement.name), [])
        assert versions, f"{requirement.name} isn't locked: make lock"
        assert all(version in requirement.specifier for version in versions), requirement


def imports() -> set[str]:
    """Top names that the package imports from outside itself and the standard library."""
    names = set()
    for module in (ROOT / "src").rglob("*.py"):
        for node in ast.walk(ast.parse(module.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Import):
                names |= {alias.name.split(".")[0] for alias in node.names}
            elif isinstance(node, ast.ImportFrom) and node.module:
                names.add(node.module.split(".")[0])
    return names - set(sys.stdlib_module_names) - {"hollowright"}


def test_what_is_imported_is_asked_for_and_the_other_way_round() -> None:
    owners = packages_distributions()
    # A wheel of one compiled module isn't listed by its module: there the names are one.
    imported = {canonicalize_name(owners.get(name, [name])[0]) for name in imports()}
    asked = {canonicalize_name(Requirement(line).name) for line in PROJECT["dependencies"]}
    assert imported <= asked
    assert asked - imported <= UNSEEN
