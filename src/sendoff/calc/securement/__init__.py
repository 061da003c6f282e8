"""Securement: working load limits, the American and the European rules, and a plan of tie-downs.

The two rule sets are chosen by jurisdiction and never stand beside each other: their counts mean different things.
"""
