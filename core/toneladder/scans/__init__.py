"""Scans and photographs of prints: straightened, evened, read."""
