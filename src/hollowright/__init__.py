"""Hollowright: from a few calliper readings to a hollow form that closes."""

__version__ = "0.1.0"
