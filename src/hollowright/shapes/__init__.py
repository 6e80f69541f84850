"""Room of the plain geometry: outlines, solids and how they are seen, in floats and millimetres."""
