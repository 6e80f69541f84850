"""Plain functions of floats (and arrays), one topic a file; nothing here knows a piece."""
