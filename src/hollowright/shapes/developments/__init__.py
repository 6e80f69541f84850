"""Flat patterns of hollow forms, each on the neutral surface, with the way there and back.

Every development maps (angle or parameter, height) to the flat by `flat`, back by `surface`, and
onto the form in space by `space`. Lengths are millimetres, angles radians. Nothing here knows a
metal or a kerf.
"""
