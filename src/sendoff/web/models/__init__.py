"""The tables of a yard: people and sites, units and their sheets, the books, and what each act wrote."""

from sendoff.web.models.books import Checkpoint, Link, PersonalValue
from sendoff.web.models.gate import BriefingTick, Debt, GateFact, GatePass, LoadPlan, TruckCheck
from sendoff.web.models.people import ROLES, Guess, Invitation, Person, Shift, Site
from sendoff.web.models.units import SheetVersion, StoredFile, Unit, UnitPart
from sendoff.web.models.work import (
    CheckStanding,
    LooseCount,
    PutRightItem,
    PutRightStep,
    Reading,
    Tool,
)

__all__ = [
    "ROLES",
    "BriefingTick",
    "CheckStanding",
    "Checkpoint",
    "Debt",
    "GateFact",
    "GatePass",
    "Guess",
    "Invitation",
    "Link",
    "LoadPlan",
    "LooseCount",
    "Person",
    "PersonalValue",
    "PutRightItem",
    "PutRightStep",
    "Reading",
    "SheetVersion",
    "Shift",
    "Site",
    "StoredFile",
    "Tool",
    "TruckCheck",
    "Unit",
    "UnitPart",
]
