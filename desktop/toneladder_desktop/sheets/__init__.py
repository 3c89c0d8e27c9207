"""The sheets, looked at before they are printed."""
