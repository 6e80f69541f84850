"""The command line: parse, call, show. `main` is the console script."""

try:
    from hollowright.cli.cutting import cutlist
    from hollowright.cli.drawer import drawer
    from hollowright.cli.laying import layout
    from hollowright.cli.main import main, main_group
except KeyboardInterrupt:  # Ctrl-C before anything began
    import sys

    sys.stderr.write("stopped.\n")
    sys.exit(1)

main_group.add_command(drawer)  # and so for each command that lives in a file of its own
main_group.add_command(layout)
main_group.add_command(cutlist)

__all__ = ["main"]
