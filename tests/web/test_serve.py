"""Starting and ending the page: where it listens, what it says, how it refuses."""

import signal
import socket
import subprocess
import sys
import urllib.request

import pytest

from hollowright.errors import InputError
from hollowright.web import serve


def started(host: str) -> subprocess.Popen[str]:
    start = f"from hollowright.web import serve; serve({host!r}, 0)"
    return subprocess.Popen(
        [sys.executable, "-u", "-c", start],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )


def test_it_says_where_it_is_and_ends_quietly() -> None:
    with started("127.0.0.1") as running:
        assert running.stdout is not None
        address = running.stdout.readline().split()[-1]
        told = running.stdout.readline().strip()
        with urllib.request.urlopen(address) as answer:
            assert answer.status == 200
            assert "server" not in answer.headers
        running.send_signal(signal.SIGINT)
        said, trouble = running.communicate(timeout=10)
    assert running.returncode == 0
    assert (told, said) == ("Ctrl+C ends it.", "")
    assert trouble == ""


def test_a_host_beyond_this_machine_is_told() -> None:
    with started("0.0.0.0") as running:
        assert running.stdout is not None
        first, second = running.stdout.readline(), running.stdout.readline()
        with urllib.request.urlopen(first.split()[-1]) as answer:  # it listens to signals by now
            assert answer.status == 200
        running.send_signal(signal.SIGINT)
        try:
            running.communicate(timeout=10)
        finally:
            running.kill()
    assert "http://127.0.0.1:" in first
    assert "Anyone who can reach this machine can use it." in second


def test_a_taken_port_is_named() -> None:
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        with pytest.raises(InputError, match="can't be used") as refused:
            serve("127.0.0.1", port)
    assert refused.value.field == "port"
    assert "--port" in refused.value.remedy


@pytest.mark.parametrize(
    ("host", "port", "field"),
    [
        ("no.such.host.example", 0, "host"),
        ("", -1, "port"),
        ("127.0.0.1", 70000, "port"),
        ("\ud800", 0, "host"),
        ("a" * 300, 0, "host"),
        ("192.0.2.1", 0, "port"),
    ],
)
def test_where_it_cannot_listen_is_worded(host: str, port: int, field: str) -> None:
    with pytest.raises(InputError) as refused:
        serve(host, port)
    assert refused.value.field == field
