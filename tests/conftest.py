"""Laws are judged by their truth, never by how busy the machine is."""

from hypothesis import settings

settings.register_profile("unhurried", deadline=None)
settings.load_profile("unhurried")
