"""Upkeep: what falls due by loads, trips, distance, hours or months, whichever comes first, and when that may be.

Day rounding, once and for all: an item is due on the day it falls due, not the day after; a forecast day is the one
in which the meter gets there, so parts of a day are dropped; and months keep the day of the month they began on, held
to the month's last day where it is shorter.
"""
