"""Statics: where the load sits, what the coupling and each axle carry, and what a weighbridge tells of it.

Axes: x rearwards from the coupling point, y to the right looking forward. Loads are masses: a scale reads them.
"""
