"""The changes of the drawer's tables in order, each with its way back."""
