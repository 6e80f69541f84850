"""The manners of the code: small modules, small functions, a first line that says why."""

import ast
import re
import statistics
import subprocess
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
PACKAGE = ROOT / "src" / "hollowright"
MODULES = sorted(PACKAGE.rglob("*.py"))
CEILING, MEDIAN, FUNCTION = 400, 180, 30

# Hosts that may stand in a file: this machine itself, names reserved for examples, XML's own.
HOSTS = re.compile(
    r"(127\.0\.0\.1|localhost|\[::1\]|testserver|www\.w3\.org|([\w-]+\.)*example(\.(com|org|net))?"
    r"|([\w-]+\.)*test|[{$%<].*)(:.*)?"
)
MACHINE = re.compile(r"(?<![\w.])/(home|root|opt|Users|work|farm|private|var/folders)/\w")

ids = {"ids": lambda module: str(module.relative_to(ROOT))}


def lines(module: Path) -> int:
    return len(module.read_text(encoding="utf-8").splitlines())


def functions(tree: ast.AST) -> list[ast.FunctionDef | ast.AsyncFunctionDef]:
    return [n for n in ast.walk(tree) if isinstance(n, ast.FunctionDef | ast.AsyncFunctionDef)]


def length(function: ast.FunctionDef | ast.AsyncFunctionDef) -> int:
    """Lines of a function without its docstring, which for a formula is a page of the manual."""
    body = function.body
    documented = ast.get_docstring(function) is not None
    page = (body[0].end_lineno or 0) - body[0].lineno + 1 if documented else 0
    return (function.end_lineno or 0) - function.lineno + 1 - page


def tracked() -> list[Path]:
    """Files that the project keeps."""
    listed = subprocess.run(
        ["git", "ls-files", "-z"], cwd=ROOT, capture_output=True, text=True, check=True
    )
    return [ROOT / name for name in listed.stdout.split("\0") if name and (ROOT / name).is_file()]


def kept_texts() -> list[tuple[str, str]]:
    """Name and text of each kept file; a file that isn't text is passed over."""
    found = []
    for file in tracked():
        try:
            found.append((str(file.relative_to(ROOT)), file.read_text(encoding="utf-8")))
        except UnicodeDecodeError:
            continue
    return found


@pytest.mark.parametrize("module", MODULES, **ids)
def test_module_is_small(module: Path) -> None:
    assert lines(module) <= CEILING, "split it along what changes together"


@pytest.mark.parametrize("module", MODULES, **ids)
def test_first_line_says_why_the_module_exists(module: Path) -> None:
    first = module.read_text(encoding="utf-8").split("\n", 1)[0]
    assert re.fullmatch(r'"""[A-Z`\w].{15,}\.(""")?', first), first


def test_modules_are_small_on_the_whole() -> None:
    sizes = [lines(m) for m in MODULES if m.name not in ("__init__.py", "__main__.py")]
    assert statistics.median(sizes) <= MEDIAN


def test_nine_functions_in_ten_are_small() -> None:
    sizes = sorted(
        length(function)
        for module in MODULES
        for function in functions(ast.parse(module.read_text(encoding="utf-8")))
    )
    assert sizes[int(0.9 * len(sizes))] < FUNCTION


def test_one_file_touches_the_polygon_library() -> None:
    touching = [m.name for m in MODULES if re.search(r"(import|from) shapely", m.read_text())]
    assert len(touching) <= 1


def test_no_path_of_a_machine() -> None:
    found = [(name, m.group()) for name, text in kept_texts() for m in MACHINE.finditer(text)]
    assert found == []


def test_no_foreign_host() -> None:
    found = [
        (name, host)
        for name, text in kept_texts()
        for host in re.findall(r"\bhttps?://([^/\s\"'`<>)]+)", text)
        if not HOSTS.fullmatch(host)
    ]
    assert found == []


def test_the_host_and_path_checks_can_fail() -> None:
    assert not HOSTS.fullmatch("registry.somewhere.io")
    assert HOSTS.fullmatch("127.0.0.1:8765")
    assert MACHINE.search("see " + "/home" + "/somebody/file")
