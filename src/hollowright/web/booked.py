"""Cuttings booked once: a ticket for each that was asked after, spent when it is booked."""

from __future__ import annotations

import hashlib
import json
import secrets
import threading
from collections import OrderedDict
from collections.abc import Callable

from hollowright.errors import InputError

MOST_TICKETS = 500
"""So many tickets are remembered; an older one is asked for anew."""


def shown_mark(*told: object) -> str:
    """The same for what is shown alike: pieces and where everything lies."""
    return hashlib.sha256(json.dumps(told).encode()).hexdigest()[:24]


class Booked:
    """Which tickets were given out, and which cutting each was spent for (0: not yet)."""

    def __init__(self) -> None:
        self.lock = threading.Lock()
        self.tickets: OrderedDict[str, int] = OrderedDict()
        self.marks: OrderedDict[str, int] = OrderedDict()

    def ticket(self) -> str:
        """A new ticket, good for one cutting."""
        with self.lock:
            ticket = secrets.token_urlsafe(12)
            _remember(self.tickets, ticket, 0)
            return ticket

    def before(self, mark: str) -> int:
        """The cutting that was booked for what is shown alike; 0 when none was."""
        with self.lock:
            return self.marks.get(mark, 0)

    def once(self, ticket: str, mark: str, book: Callable[[], int]) -> int:
        """Book a cutting, or say which one this ticket was spent for; InputError if unknown.

        book: does it and returns its number; where it raises, the ticket stays good.
        """
        with self.lock:
            spent = self.tickets.get(ticket)
            if spent is None:
                raise InputError(
                    "cutting", "it was asked after too long ago.", "Look at it again, then say yes."
                )
            if not spent:
                spent = book()
                _remember(self.tickets, ticket, spent)
                _remember(self.marks, mark, spent)
            return spent


def _remember(rows: OrderedDict[str, int], key: str, number: int) -> None:
    rows[key] = number
    rows.move_to_end(key)
    while len(rows) > MOST_TICKETS:
        rows.popitem(last=False)
