"""The deck plan of a unit: asked of its surfaces, its truck and its cargo, answered in findings and words."""
