"""The drawer: metal that lies there, what was cut of it, and layouts found before.

`hollowright.store.store` opens it; import that where it is used, since it brings the database
library with it. What this file gives is light.
"""

from __future__ import annotations

from hollowright.store.items import FORMS, Change, Cutting, Item, NewItem, Page, Placement

__all__ = ["FORMS", "Change", "Cutting", "Item", "NewItem", "Page", "Placement"]
