"""The yard's web application: the only room that knows Django.

Inside, the upper may use the lower, never back: `urls` → `views` → `forms` → `services` (they write) → `queries`
(they read) → `stock` (catalogue and briefings) → `models`.
"""
