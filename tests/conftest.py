"""Laws are judged by their truth, never by how busy the machine is, and in English."""

import os

from hypothesis import settings

os.environ["LC_ALL"] = "C.UTF-8"
os.environ.pop("LANGUAGE", None)
settings.register_profile("unhurried", deadline=None)
settings.load_profile("unhurried")
