"""This shop's own numbers: kerf, allowances, instruments, fit windows; all of them changeable."""

from hollowright.shop.shop import Setting, Shop, default_shop, read_shop

__all__ = ["Setting", "Shop", "default_shop", "read_shop"]
