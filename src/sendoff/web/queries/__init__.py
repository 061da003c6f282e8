"""Reading the books: what pages ask for. Nothing here writes."""
