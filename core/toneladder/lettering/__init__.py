"""The bundled letters: one family of files for windows, sheets and their measuring."""
