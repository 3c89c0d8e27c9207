"""The bite curve drawn: patches, band of doubt, the plate's own rungs."""
