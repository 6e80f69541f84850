"""The commands, and the one place where every error becomes a sentence and an exit code."""

from __future__ import annotations

import json
import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from typing import Any

import click

from hollowright.errors import HollowrightError

PAPERS = ("a4", "letter")


class OutputLost(HollowrightError):
    """Standard output that takes no more: a full disk, a closed stream (exit code 1)."""


@click.group(context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 88})
@click.version_option(package_name="hollowright", prog_name="hollowright")
def main_group() -> None:
    """From a few calliper readings to a plan whose every number shows its working and its doubt."""


def main(arguments: list[str] | None = None) -> None:
    """Run the command line; ends by SystemExit with 0 done, 1 can't be made, 2 wrong as given."""
    try:
        sys.exit(run(arguments))
    except KeyboardInterrupt:  # before the command began, or after it ended
        sys.stderr.write("stopped.\n")
        sys.exit(1)


def run(arguments: list[str] | None = None) -> int:
    """Run one command and return its exit code; nothing but plain sentences reach the user."""
    try:
        result = main_group.main(arguments, prog_name="hollowright", standalone_mode=False)
    except HollowrightError as fault:
        put(str(fault), err=True)
        return fault.exit_code
    except click.exceptions.Abort:
        click.echo("stopped.", err=True)
        return 1
    except click.ClickException as fault:
        fault.show()
        return 2
    except BrokenPipeError:
        _tell_no_more()
        return 0
    except Exception as fault:
        if os.environ.get("HOLLOWRIGHT_DEBUG"):
            raise
        click.echo(_unforeseen(fault), err=True)
        with suppress(OutputLost), telling():
            sys.stdout.flush()
        return 1
    return result if isinstance(result, int) else 0


def _unforeseen(fault: Exception) -> str:
    """What isn't foreseen, in words; whether anything was changed isn't known here."""
    if isinstance(fault, OSError) and fault.strerror:
        return f"Something couldn't be read or written: {_reason(fault)}."
    return (
        f"Something went wrong inside ({type(fault).__name__}). Set HOLLOWRIGHT_DEBUG=1 and run "
        "it again to see where."
    )


def _reason(fault: OSError) -> str:
    reason = fault.strerror or type(fault).__name__
    return f"{reason[:1].lower()}{reason[1:]}"


def _tell_no_more() -> None:
    """Let what standard output still holds go nowhere, or Python fails on it at its end."""
    with suppress(OSError, ValueError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


@contextmanager
def telling() -> Iterator[None]:
    """Writing to standard output: OutputLost says why it takes no more."""
    try:
        yield
    except BrokenPipeError:
        raise
    except OSError as fault:
        _tell_no_more()
        raise OutputLost(
            "", f"Standard output can't be written: {_reason(fault)}.", "Print it elsewhere."
        ) from fault


@contextmanager
def still_told(done: str) -> Iterator[None]:
    """While something that was done is told of: where that fails, standard error says it."""
    try:
        yield
    except BaseException:
        with suppress(Exception):
            put(done, err=True)
        raise


PLAIN = str.maketrans({"⌀": "dia ", "×": "x", "±": "+-", "…": "...", "″": '"', "—": "-", "π": "pi"})
"""What stands for a sign that a terminal's encoding lacks."""


def put(text: str, err: bool = False) -> None:
    """Text to standard output, in signs that its encoding has."""
    stream = sys.stderr if err else sys.stdout
    encoding = getattr(stream, "encoding", None) or "utf-8"
    try:
        text.encode(encoding)
    except UnicodeEncodeError:
        text = text.translate(PLAIN).encode(encoding, "replace").decode(encoding)
    with telling():
        click.echo(text, nl=not text.endswith("\n"), err=err)


def put_json(data: Any) -> None:
    """One JSON object to standard output and nothing else."""
    with telling():
        click.echo(json.dumps(data, allow_nan=False, indent=1))


shop_option = click.option(
    "--shop",
    "shop_file",
    metavar="FILE",
    help="This shop's own numbers (else shop.toml beside the piece file; see `hollowright shop`).",
)
json_option = click.option("--json", "as_json", is_flag=True, help="Print JSON.")


@main_group.command()
@click.argument("file")
@json_option
@click.option(
    "--out", metavar="DIR", help="Write the bench card (PDF) and the blanks (SVG, DXF) there."
)
@click.option("--paper", type=click.Choice(PAPERS), default="a4", help="Paper of the bench card.")
@click.option("--working", "with_working", is_flag=True, help="Show how each number is worked out.")
@click.option("--steps", "with_steps", is_flag=True, help="Tell each step in full.")
@shop_option
def plan(
    file: str,
    as_json: bool,
    out: str | None,
    paper: str,
    with_working: bool,
    with_steps: bool,
    shop_file: str | None,
) -> None:
    """Plan the piece of a piece FILE."""
    from hollowright.job.job import plan_file

    made = plan_file(file, shop_file)
    written = []
    if out is not None:
        from hollowright.output.files import write_all

        written = write_all(made, out, paper)
    if as_json:
        from hollowright.output.data import plan_data

        put_json(plan_data(made))
        return
    from hollowright.output.text import plan_text

    put(plan_text(made, with_working, with_steps))
    for path in written:
        put(f"written: {path}")


@main_group.command(context_settings={"ignore_unknown_options": True})
@click.argument("file")
@click.argument("quantity")
@click.argument("value")
@json_option
@shop_option
def check(file: str, quantity: str, value: str, as_json: bool, shop_file: str | None) -> None:
    """Check your own VALUE of a QUANTITY against the plan of FILE, and find the slip."""
    from hollowright.job.job import plan_file
    from hollowright.plan.slips import check as check_figure

    checked = check_figure(plan_file(file, shop_file), quantity, value)
    if as_json:
        from hollowright.output.data import checked_data

        put_json(checked_data(checked))
        return
    from hollowright.output.text import check_text

    put(check_text(checked))


@main_group.command()
@click.argument("name", required=False)
@json_option
@click.option("--out", metavar="DIR", help="Write each design's drawing and example there.")
def designs(name: str | None, as_json: bool, out: str | None) -> None:
    """List what can be made; with a NAME print an example piece file that plans as it stands.

    `hollowright designs joined` prints one of several designs joined.
    """
    from hollowright.cli.gallery import example_text, fields_data, gallery_data, gallery_text

    if out is not None:
        from hollowright.cli.gallery import write_gallery

        for path in write_gallery(out, name):
            put(f"written: {path}")
    elif name is None and as_json:
        put_json(gallery_data())
    elif name is None:
        put(gallery_text())
    elif as_json:
        put_json(fields_data(name))
    else:
        put(example_text(name))


@main_group.command()
@json_option
@shop_option
@click.option("--sold", is_flag=True, help="Print the sold list instead: a sold.csv to fill in.")
def shop(as_json: bool, shop_file: str | None, sold: bool) -> None:
    """Print the shop's numbers as a file to change and give back with --shop.

    With --sold the sizes that are usually sold, as CSV to put your own in, with prices: kept as
    sold.csv beside the piece file, layout and cutlist use it.
    """
    if sold:
        _put_sold(as_json)
        return
    from hollowright.job.job import shop_of
    from hollowright.output.shop_text import shop_data, shop_toml

    chosen = shop_of(shop_file)
    if as_json:
        put_json(shop_data(chosen))
    else:
        put(shop_toml(chosen))


def _put_sold(as_json: bool) -> None:
    """The sold list that comes with the program, as it is read or as data."""
    from dataclasses import asdict

    from hollowright.shop.sold import default_sold, sold_text

    if as_json:
        put_json({"sold": [asdict(size) for size in default_sold().sizes]})
    else:
        put(sold_text().rstrip("\n"))


@main_group.command()
@click.option("--host", default="127.0.0.1", help="Address to listen on (loopback by default).")
@click.option("--port", default=8765, type=click.IntRange(0, 65535), help="Port to listen on.")
@shop_option
@click.option(
    "--drawer",
    "drawer_url",
    metavar="URL",
    help="The drawer: a file's path or postgresql://... (else your own).",
)
def serve(host: str, port: int, shop_file: str | None, drawer_url: str | None) -> None:
    """Open the local page: fill the readings, see the plan move."""
    from hollowright.job.job import shop_of
    from hollowright.web import serve as serve_page

    serve_page(host, port, shop_of(shop_file), drawer_url)


@main_group.command()
@click.option("--out", default="out", metavar="DIR", help="Where the bench card and blanks go.")
@click.option("--paper", type=click.Choice(PAPERS), default="a4", help="Paper of the bench card.")
def demo(out: str, paper: str) -> None:
    """Plan the demo piece, leave its bench card in DIR, and say how to open the page."""
    from hollowright.designs import design
    from hollowright.job.job import plan_tables, read_tables
    from hollowright.output.files import write_all
    from hollowright.output.text import plan_text

    text = design("tube-box").examples[0].text
    made = plan_tables(read_tables(text))
    written = write_all(made, out, paper, {"striker-box.toml": text})
    put(plan_text(made))
    put("Left for you:")
    for path in written:
        put(f"  {path}")
    put("Open the page: `make serve` (or `hollowright serve`), then http://127.0.0.1:8765/")
