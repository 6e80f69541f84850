"""The local page: fill the readings, see the plan move. Nothing heavy loads before it runs."""

from __future__ import annotations

import contextlib
import socket

from hollowright.errors import InputError
from hollowright.shop import Shop

__all__ = ["serve"]


def serve(host: str, port: int, shop: Shop | None = None, drawer: str | None = None) -> None:
    """Serve the page until it is stopped; says where it is. InputError when it can't listen there.

    host: a name or address of this machine. port: 0 takes any that is free. shop:
    whose numbers it plans with; the defaults without one. drawer: its path or address; the usual
    place without one.
    """
    import click
    import uvicorn

    from hollowright.web.app import make_app
    from hollowright.web.guard import is_loopback

    listening = _listen(host, port)
    app = make_app(host, shop, drawer)
    config = uvicorn.Config(
        app,
        log_level="critical",
        access_log=False,
        lifespan="off",
        ws="none",
        proxy_headers=False,
        server_header=False,
        timeout_graceful_shutdown=2,
    )
    with listening:
        click.echo(f"Hollowright's page: http://{_shown(host)}:{listening.getsockname()[1]}/")
        if not is_loopback(host):
            click.echo("Anyone who can reach this machine can use it.")
        click.echo("Ctrl+C ends it.")
        with contextlib.suppress(KeyboardInterrupt):
            uvicorn.Server(config).run(sockets=[listening])
        app.state.bench.close()


def _listen(host: str, port: int) -> socket.socket:
    """A socket that listens at host and port."""
    if not 0 <= port <= 65535:
        raise InputError("port", f"{port} isn't a port.", "Take one from 1024 to 65535.")
    try:
        family, kind, protocol, _, address = socket.getaddrinfo(
            host, port, type=socket.SOCK_STREAM, flags=socket.AI_PASSIVE
        )[0]
    except (OSError, UnicodeError):
        raise InputError(
            "host", f"'{host}' isn't an address of this machine.", "Take 127.0.0.1."
        ) from None
    made = socket.socket(family, kind, protocol)
    try:
        made.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        made.bind(address)
        made.listen(64)
    except OSError as fault:
        made.close()
        raise InputError(
            "port",
            f"{host}:{port} can't be used: {fault.strerror or 'it is taken'}.",
            f"Give another: --port {port + 1 if 1023 < port < 65535 else 8766}.",
        ) from None
    return made


def _shown(host: str) -> str:
    """A host as it stands in an address: an IPv6 one in brackets, 'any' as this machine."""
    if host in ("0.0.0.0", "::", ""):  # noqa: S104 (asked for by the user)
        return "127.0.0.1"
    return f"[{host}]" if ":" in host else host
