"""What a user can meet at the drawer: an item that has gone, a drawer that can't be opened."""

from __future__ import annotations

from hollowright.errors import HollowrightError, InputError


class DrawerRefused(HollowrightError):
    """What the drawer can't do as asked, since it holds something else (exit code 1)."""


class NoSuchDrawer(InputError):
    """A drawer that can't be opened: not there, not a drawer, not reached (exit code 2)."""

    def __init__(self, problem: str, remedy: str) -> None:
        super().__init__("drawer", problem, remedy)
