"""The drawer's tables as they are now; how they came to be so stands in `migrations`."""

from __future__ import annotations

from sqlalchemy import (
    CheckConstraint,
    Column,
    Double,
    ForeignKey,
    Index,
    Integer,
    MetaData,
    String,
    Table,
    Text,
)

metadata = MetaData(
    naming_convention={
        "ix": "ix_%(table_name)s_%(column_0_N_name)s",
        "uq": "uq_%(table_name)s_%(column_0_N_name)s",
        "ck": "ck_%(table_name)s_%(constraint_name)s",
        "fk": "fk_%(table_name)s_%(column_0_N_name)s",
        "pk": "pk_%(table_name)s",
    }
)

items = Table(
    "items",
    metadata,
    Column("number", Integer, primary_key=True, autoincrement=False),
    Column("form", String(20), nullable=False),
    Column("metal", String(60), nullable=False),
    Column("temper", String(40), nullable=False),
    Column("thickness", Double),
    Column("outside_diameter", Double),
    Column("wall", Double),
    Column("diameter", Double),
    Column("width", Double),
    Column("length", Double),
    Column("outline", Text),
    Column("grain", Double),
    Column("square_ends", Integer, nullable=False),
    Column("readings", Text, nullable=False),
    Column("place", Text, nullable=False),
    Column("cost", Double),
    Column("note", Text, nullable=False),
    Column("cut_from", Integer, index=True),
    Column("words", Text, nullable=False),  # what a search by text looks through
    Column("added", String(40), nullable=False),
    Column("gone", String(40)),
    Column("gone_how", String(20), nullable=False),
    Column("gone_why", Text, nullable=False),
    Column("came_by", Integer, ForeignKey("cuttings.number"), index=True),
    Column("gone_by", Integer, ForeignKey("cuttings.number"), index=True),
    CheckConstraint("number > 0", name="number"),
    CheckConstraint("(gone IS NULL) = (gone_how = '')", name="gone_and_how"),
    CheckConstraint("gone_by IS NULL OR gone IS NOT NULL", name="gone_by"),
    Index("ix_items_stock", "gone", "form", "metal", "thickness"),
    Index("ix_items_listed", "gone", "number"),
)

cuttings = Table(
    "cuttings",
    metadata,
    Column("number", Integer, primary_key=True, autoincrement=False),
    Column("at", String(40), nullable=False),
    Column("kind", String(20), nullable=False),
    Column("made_for", Text, nullable=False),
    Column("data", Text, nullable=False),
    Column("undoes", Integer, ForeignKey("cuttings.number"), unique=True),
)

cutting_items = Table(
    "cutting_items",
    metadata,
    Column("cutting", Integer, ForeignKey("cuttings.number"), primary_key=True),
    Column("item", Integer, ForeignKey("items.number"), primary_key=True, index=True),
    Column("way", String(3), nullable=False),
    CheckConstraint("way IN ('out', 'in')", name="way"),
)

record = Table(
    "record",
    metadata,
    Column("id", Integer, primary_key=True),
    Column("at", String(40), nullable=False),
    Column("item", Integer, ForeignKey("items.number"), nullable=False, index=True),
    Column("what", String(20), nullable=False),
    Column("told", Text, nullable=False),
)

placements = Table(
    "placements",
    metadata,
    Column("key", String(200), primary_key=True),
    Column("data", Text, nullable=False),
    Column("program", String(40), nullable=False),
    Column("handbook", String(40), nullable=False),
    Column("seconds", Double, nullable=False),
    Column("at", String(40), nullable=False),
)
