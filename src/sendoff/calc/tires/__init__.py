"""Tires: what is marked on them, what they carry at a pressure, and whether they are fit for use.

The placard is the floor: a calculation may show that its pressure is enough for a load, never that less would do.
"""
