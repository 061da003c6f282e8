"""Truck check: may this truck tow this trailer, with this load; one limit at a time.

Nothing here approves towing. Each function holds one limit against one demand; what was not asked stays unchecked.
"""
