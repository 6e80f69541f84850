"""The first drawer: items, cuttings and the record of changes."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None

SIZES = ("thickness", "outside_diameter", "wall", "diameter", "width", "length")


def upgrade() -> None:
    """Make the tables."""
    _cuttings()
    _items()
    _links()


def _cuttings() -> None:
    op.create_table(
        "cuttings",
        sa.Column("number", sa.Integer, autoincrement=False, nullable=False),
        sa.Column("at", sa.String(40), nullable=False),
        sa.Column("kind", sa.String(20), nullable=False),
        sa.Column("made_for", sa.Text, nullable=False),
        sa.Column("data", sa.Text, nullable=False),
        sa.Column("undoes", sa.Integer),
        sa.PrimaryKeyConstraint("number", name="pk_cuttings"),
        sa.ForeignKeyConstraint(["undoes"], ["cuttings.number"], name="fk_cuttings_undoes"),
        sa.UniqueConstraint("undoes", name="uq_cuttings_undoes"),
    )


def _items() -> None:
    op.create_table(
        "items",
        sa.Column("number", sa.Integer, autoincrement=False, nullable=False),
        sa.Column("form", sa.String(20), nullable=False),
        sa.Column("metal", sa.String(60), nullable=False),
        sa.Column("temper", sa.String(40), nullable=False),
        *(sa.Column(name, sa.Double) for name in SIZES),
        sa.Column("outline", sa.Text),
        sa.Column("grain", sa.Double),
        sa.Column("square_ends", sa.Integer, nullable=False),
        *(sa.Column(name, sa.Text, nullable=False) for name in ("readings", "place")),
        sa.Column("cost", sa.Double),
        sa.Column("note", sa.Text, nullable=False),
        sa.Column("cut_from", sa.Integer),
        sa.Column("words", sa.Text, nullable=False),
        sa.Column("added", sa.String(40), nullable=False),
        sa.Column("gone", sa.String(40)),
        sa.Column("gone_how", sa.String(20), nullable=False),
        sa.Column("gone_why", sa.Text, nullable=False),
        sa.Column("came_by", sa.Integer),
        sa.Column("gone_by", sa.Integer),
        sa.PrimaryKeyConstraint("number", name="pk_items"),
        sa.ForeignKeyConstraint(["came_by"], ["cuttings.number"], name="fk_items_came_by"),
        sa.ForeignKeyConstraint(["gone_by"], ["cuttings.number"], name="fk_items_gone_by"),
        sa.CheckConstraint("number > 0", name="ck_items_number"),
        sa.CheckConstraint("(gone IS NULL) = (gone_how = '')", name="ck_items_gone_and_how"),
        sa.CheckConstraint("gone_by IS NULL OR gone IS NOT NULL", name="ck_items_gone_by"),
    )
    op.create_index("ix_items_stock", "items", ["gone", "form", "metal", "thickness"])
    op.create_index("ix_items_listed", "items", ["gone", "number"])
    for name in ("cut_from", "came_by", "gone_by"):
        op.create_index(f"ix_items_{name}", "items", [name])


def _links() -> None:
    op.create_table(
        "cutting_items",
        sa.Column("cutting", sa.Integer, nullable=False),
        sa.Column("item", sa.Integer, nullable=False),
        sa.Column("way", sa.String(3), nullable=False),
        sa.PrimaryKeyConstraint("cutting", "item", name="pk_cutting_items"),
        sa.ForeignKeyConstraint(["cutting"], ["cuttings.number"], name="fk_cutting_items_cutting"),
        sa.ForeignKeyConstraint(["item"], ["items.number"], name="fk_cutting_items_item"),
        sa.CheckConstraint("way IN ('out', 'in')", name="ck_cutting_items_way"),
    )
    op.create_index("ix_cutting_items_item", "cutting_items", ["item"])
    op.create_table(
        "record",
        sa.Column("id", sa.Integer, nullable=False),
        sa.Column("at", sa.String(40), nullable=False),
        sa.Column("item", sa.Integer, nullable=False),
        sa.Column("what", sa.String(20), nullable=False),
        sa.Column("told", sa.Text, nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_record"),
        sa.ForeignKeyConstraint(["item"], ["items.number"], name="fk_record_item"),
    )
    op.create_index("ix_record_item", "record", ["item"])


def downgrade() -> None:
    """Take the tables away: what they held is lost."""
    for name in ("record", "cutting_items", "items", "cuttings"):
        op.drop_table(name)
