"""Text to facts: reading a design file, its units, formulas and schema, and the data tables."""
