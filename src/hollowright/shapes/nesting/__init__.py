"""Flats laid out in sheets, in plain numbers: what lies where, found, bettered, judged."""
