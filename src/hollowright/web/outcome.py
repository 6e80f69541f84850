"""What came of the form's values: a plan, or what is wrong beside the last good plan."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from hollowright.designs import Design, Field
from hollowright.errors import Caution, HollowrightError
from hollowright.job.job import plan_tables, read_tables
from hollowright.plan.plan import Plan
from hollowright.shop import Shop
from hollowright.web.composition import form_design
from hollowright.web.form import Values, piece_text, tables_of

BESIDE = ("_misread", "_apart", "_stranger", "_oval", "_far_off")
"""How the ids of cautions end that stand beside the field whose readings they doubt."""


@dataclass(frozen=True)
class Outcome:
    """The values, the plan to show, whether it is an older one, and the faults.

    piece: the piece file of the plan shown, empty without one. faults: by the field's path those
    that stand beside a field; general: the others.
    """

    values: Values
    plan: Plan | None
    piece: str
    stale: bool = False
    faults: Mapping[str, tuple[HollowrightError, ...]] = field(default_factory=dict)
    general: tuple[HollowrightError, ...] = ()

    @property
    def design(self) -> Design:
        """The design whose form this is."""
        return form_design(self.values["design"])

    @property
    def wrong(self) -> list[tuple[str, str]]:
        """Path and label of each field that has a fault, as the form lists them."""
        labels = {"title": "piece"} | {field.path: field.label for field in self.design.fields}
        return [(path, labels[path]) for path in labels if path in self.faults]

    @property
    def minds(self) -> dict[str, list[Caution]]:
        """By the field's path, what the plan doubts of its readings; none while it is stale."""
        found: dict[str, list[Caution]] = {}
        for caution in self.plan.cautions if self.plan and not self.stale else ():
            if caution.kind == "reading" and caution.id.endswith(BESIDE):
                found.setdefault(self._place(caution.about)[0], []).append(caution)
        return found

    @property
    def to_settle(self) -> dict[str, str]:
        """Label and path ('' without a field) of what to read again before anything is sawn."""
        cautions = self.plan.to_settle if self.plan and not self.stale else ()
        places = (self._place(caution.about) for caution in cautions)
        return {label: path for path, label in places}

    def asked_by(self, field: Field) -> str:
        """Path of the choice by which a field is asked; '' for one that always is."""
        names = {each.name: each.path for each in self.design.fields}
        return names.get(field.asked_by, "")

    def put_away(self, field: Field) -> bool:
        """Whether the choices made leave a field without use, and nothing stands in it."""
        path = self.asked_by(field)
        if not path or self.values[field.path] or field.path in self.faults:
            return False
        defaults = {each.path: each.default for each in self.design.fields}
        return (self.values[path] or defaults[path]) not in field.asked_for

    def _place(self, about: str) -> tuple[str, str]:
        """Path and label of the field that a caution is about, by its name or 'built_' and it."""
        fields = {field.name: field for field in self.design.fields}
        built = {name.replace("built_", "", 1): each for name, each in fields.items()}
        found = fields.get(about) or built.get(about)
        return (found.path, found.label) if found else ("", about.replace("_", " "))

    def reading_path(self, id: str) -> str:
        """Path of the field for an as-built reading of a quantity; '' when there is none."""
        path, _ = self._place(id)
        return path if "as_built" in path else ""

    @property
    def count(self) -> int:
        """How many faults there are."""
        return len(self.general) + sum(len(each) for each in self.faults.values())


def worked_out(values: Values, good: str = "", shop: Shop | None = None) -> Outcome:
    """The plan of the values; with faults, the plan of `good`, the last piece file that planned."""
    try:
        plan = plan_tables(tables_of(values), shop)
    except HollowrightError as fault:
        return with_faults(values, good, fault, shop)
    return Outcome(values, plan, piece_text(values))


def with_faults(
    values: Values, good: str, fault: HollowrightError, shop: Shop | None = None
) -> Outcome:
    """The outcome of a fault: each single one put beside its field."""
    places = {"title", *(field.path for field in form_design(values["design"]).fields)}
    beside: dict[str, tuple[HollowrightError, ...]] = {}
    general: list[HollowrightError] = []
    for single in fault.each():
        if single.field in places:
            beside[single.field] = (*beside.get(single.field, ()), single)
        else:
            general.append(single)
    plan = _last_good(good, shop)
    return Outcome(values, plan, good if plan else "", True, beside, tuple(general))


def _last_good(text: str, shop: Shop | None) -> Plan | None:
    try:
        return plan_tables(read_tables(text), shop) if text else None
    except HollowrightError:
        return None
