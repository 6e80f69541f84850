"""From a net piece and a shop to a plan: passes, each a pure function of what came before."""
