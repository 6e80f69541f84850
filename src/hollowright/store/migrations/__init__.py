"""How the drawer's tables came to be what they are: one file a change, never altered later."""
