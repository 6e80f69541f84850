"""The handbook: the world's numbers, each with its source. Take what you need from its modules.

sources: Source, Sourced · metals: metal, metals · gauges: GAUGES, gauges · tubes: tubes, sockets ·
blades: blade_for, blades · recognise: what a reading probably is. Nothing is read before it is
asked for, so this import costs nothing.
"""
