"""The reckonings: plain functions on SI floats and arrays, with units read and written at the edge only.

Nothing here knows Django, a page or a sentence. What can't be reckoned is refused with a code and parameters.
"""
