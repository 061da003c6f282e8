"""Ratings: the chain of parts down to the weakest one, and what the rules ask of the labels.

The smallest number on any part is the number. A rating is never worked out upwards: what is not known stays unknown
and is named.
"""
