"""The bench as a window: everything in its place, menus, files, help."""
