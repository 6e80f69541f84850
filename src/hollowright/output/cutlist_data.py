"""Cut lists as JSON data: every batch, bar and piece; lengths in mm."""

from __future__ import annotations

from typing import Any

from hollowright.job.cutting import Cutting
from hollowright.plan.bars import CutList, SawnBar

Data = dict[str, Any]


def cutlist_data(cutting: Cutting) -> Data:
    """All cut lists of some orders as one object."""
    return {
        "title": cutting.title,
        "orders": [
            {"id": order.key, "title": order.plan.piece.title, "copies": order.copies}
            for order in cutting.orders
        ],
        "batches": [_batch(each) for each in cutting.lists],
        "complete": cutting.complete,
        "cautions": [caution.text for caution in cutting.cautions],
    }


def _batch(cut_list: CutList) -> Data:
    batch, rules = cut_list.batch, cut_list.rules
    return {
        "id": batch.id,
        "form": batch.form,
        "metal": batch.metal.id,
        "temper": batch.temper,
        "sizes": {name: _mm(size) for name, size in batch.sizes.items()},
        "rules": {
            "kerf": rules.kerf,
            "truing": rules.truing,
            "end_trim": rules.end_trim,
            "offcut_least": rules.offcut_least,
        },
        "bars": [_bar(cut_list, each) for each in cut_list.bars],
        "bought": [{"id": each.id, "length": _mm(each.bar.length), "cost": each.bar.cost}
                   for each in cut_list.bought],
        "cost": cut_list.cost,
        "bound": round(cut_list.bound, 6),
        "bound_text": cut_list.bound_text,
        "proven": cut_list.proven,
        "proven_waste": cut_list.proven_waste,
        "waste": _mm(cut_list.waste),
        "square_ends": {"asked": cut_list.square_asked, "given": cut_list.square_given},
        "missing": [
            {"id": lost.flat, "count": lost.count, "why": lost.why, "remedy": lost.remedy}
            for lost in cut_list.missing
        ],
        "cautions": [caution.text for caution in cut_list.cautions],
    }  # fmt: skip


def _bar(cut_list: CutList, sawn: SawnBar) -> Data:
    return {
        "id": sawn.id,
        "bar": sawn.bar.id,
        "label": sawn.bar.label,
        "origin": sawn.bar.origin,
        "length": _mm(sawn.bar.length),
        "square_ends": sawn.bar.square_ends,
        "cost": sawn.bar.cost,
        "pieces": [_piece(cut_list, sawn, number) for number in range(len(sawn.pieces))],
        "rest": _mm(sawn.rest),
        "rest_at": _mm(sawn.rest_at),
        "rest_square_ends": sawn.rest_square,
        "kept": sawn.kept,
        "waste": _mm(sawn.waste),
    }


def _piece(cut_list: CutList, sawn: SawnBar, number: int) -> Data:
    piece = sawn.pieces[number]
    length = cut_list.batch.length(piece.length)
    return {
        "id": f"{sawn.id}:{number + 1}",
        "order": length.order.key,
        "part": length.part.id,
        "name": length.part.name,
        "start": _mm(piece.start),
        "length": _mm(piece.long),
        "net": _mm(length.net.value),
        "run": piece.run,
        "square_ends": piece.square_ends,
        "low_square": piece.low_square,
        "high_square": piece.high_square,
    }


def _mm(length: float) -> float:
    """A length without the dust of reckoning: to a nanometre [mm]."""
    return round(length, 6) + 0.0
