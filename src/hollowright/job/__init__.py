"""From a piece file or a form to a plan in one call, for every face alike."""
