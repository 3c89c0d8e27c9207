"""The studio's own strip: read from a scan or typed, fitted, taken for the plate."""
