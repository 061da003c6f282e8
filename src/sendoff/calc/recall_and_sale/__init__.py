"""Recall and sale: what federal law asks of who sells a trailer, its tires and its papers, and by which day."""

from __future__ import annotations

from sendoff.calc.recall_and_sale.recall import (
    recall_clock,
    recall_letter_goes_to,
    recall_repair_overdue,
    recall_sale_bar,
    recalled_tire_deadline,
)
from sendoff.calc.recall_and_sale.sale import (
    added_parts_taxed,
    freight_claim_deadlines,
    load_cover_rule,
    odometer_statement,
    stock_trailers_length,
    trailer_excise_tax,
)
from sendoff.calc.recall_and_sale.tires import tire_record_until, tire_registration, tire_report_due

__all__ = [
    "added_parts_taxed",
    "freight_claim_deadlines",
    "load_cover_rule",
    "odometer_statement",
    "recall_clock",
    "recall_letter_goes_to",
    "recall_repair_overdue",
    "recall_sale_bar",
    "recalled_tire_deadline",
    "stock_trailers_length",
    "tire_record_until",
    "tire_registration",
    "tire_report_due",
    "trailer_excise_tax",
]
