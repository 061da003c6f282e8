"""Writing in the books: each act once, with its link in the unit's chain, in one transaction."""
