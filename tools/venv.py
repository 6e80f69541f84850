"""Make ``.venv`` and install into it what a make target needs, from the lock only.

Run by whatever ``python3`` the machine has, so it uses nothing but the standard library, and it
can still say what is wrong when that Python is an old one. Usage: ``venv.py runtime|dev|oracle``.
"""

import os
import shutil
import subprocess
import sys

ROOT = os.path.dirname(os.path.dirname(os.path.abspath(__file__)))  # noqa: PTH100, PTH120
VENV = os.path.join(ROOT, ".venv")  # noqa: PTH118
LEVELS = ["runtime", "dev", "oracle"]
OLDEST, TOO_NEW = (3, 11), (3, 15)


def usable(version):
    """Whether the project runs on this Python."""
    return OLDEST <= tuple(version[:2]) < TOO_NEW


def use_another_python():
    """Start again with a Python that the project runs on, or stop and say what is needed."""
    for minor in range(TOO_NEW[1] - 1, OLDEST[1] - 1, -1):
        other = shutil.which("python3.%d" % minor)
        if other and subprocess.call([other, "-c", ""], stderr=subprocess.DEVNULL) == 0:
            os.execv(other, [other, *sys.argv])
    sys.exit(
        "Hollowright needs Python 3.11, 3.12, 3.13 or 3.14; {} is Python {}.{}.\n"
        "Install one of them, or name it: make demo PYTHON=/path/to/python3.12".format(
            sys.executable, *sys.version_info[:2]
        )
    )


def inside(*words):
    """Path of a program in the environment."""
    return os.path.join(VENV, "bin", *words)


def run(command, fix):
    """Run a command quietly; if it fails, show what it said and what to do."""
    done = subprocess.run(
        command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, universal_newlines=True
    )
    if done.returncode:
        sys.exit(f"{done.stdout}\nSetting up failed at: {' '.join(command)}\n{fix}")


def whole():
    """Whether ``.venv`` stands and its Python and pip answer."""
    check = [inside("python"), "-c", "import pip, sys; sys.exit(sys.version_info < (3, 11))"]
    return os.path.exists(check[0]) and subprocess.call(check, stderr=subprocess.DEVNULL) == 0


def make_environment():
    """Make ``.venv`` anew; where Python came without its own pip, the machine's pip lends one."""
    shutil.rmtree(VENV, ignore_errors=True)
    fix = "If Python came from Debian or Ubuntu: apt-get install python3-venv"
    if subprocess.call([sys.executable, "-c", "import ensurepip"], stderr=subprocess.DEVNULL) == 0:
        run([sys.executable, "-m", "venv", VENV], fix)
        return
    run([sys.executable, "-m", "venv", "--without-pip", VENV], fix)
    lend = [sys.executable, "-m", "pip", "--python", inside("python")]
    run([*lend, "install", "--quiet", "pip"], fix)


def install(level):
    """Install the locked packages of this level and those below it, then the project itself."""
    pip = [inside("python"), "-m", "pip", "--disable-pip-version-check", "--no-input", "install"]
    files = LEVELS[: LEVELS.index(level) + 1]
    locked = [word for file in files for word in ("-r", f"constraints/{file}.txt")]
    fix = "The first set-up needs the network. When that is mended, give the same command again."
    run([*pip, "--quiet", "--only-binary", ":all:", "--require-hashes", *locked], fix)
    run([*pip, "--quiet", "--no-deps", "--no-build-isolation", "--no-index", "-e", "."], fix)


def main():
    """Bring ``.venv`` to the level asked for and leave the stamp that make looks at."""
    level = sys.argv[1] if len(sys.argv) == 2 else ""
    if level not in LEVELS:
        sys.exit("usage: venv.py " + "|".join(LEVELS))
    if not usable(sys.version_info):
        use_another_python()
    os.chdir(ROOT)
    print(f"Setting up ({level}); the first time takes a minute ...", flush=True)
    if not whole():
        make_environment()
    install(level)
    for file in LEVELS[: LEVELS.index(level) + 1]:
        with open(os.path.join(VENV, f".{file}"), "w") as stamp:  # noqa: PTH118, PTH123
            stamp.write("")


if __name__ == "__main__":
    main()
