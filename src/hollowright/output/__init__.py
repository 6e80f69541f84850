"""Room of the writers: one drawing model and what it is turned into."""
