"""The studio book in the window: ledgers of plates and baths, and each plate's record."""
