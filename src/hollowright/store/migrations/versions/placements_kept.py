"""Layouts that a solver found are kept, so that none is solved again to be redrawn."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make the table of placements."""
    op.create_table(
        "placements",
        sa.Column("key", sa.String(200), nullable=False),
        sa.Column("data", sa.Text, nullable=False),
        sa.Column("program", sa.String(40), nullable=False),
        sa.Column("handbook", sa.String(40), nullable=False),
        sa.Column("seconds", sa.Double, nullable=False),
        sa.Column("at", sa.String(40), nullable=False),
        sa.PrimaryKeyConstraint("key", name="pk_placements"),
    )


def downgrade() -> None:
    """Take it away; the drawer itself is untouched."""
    op.drop_table("placements")
