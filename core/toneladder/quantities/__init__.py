"""Read and write the quantities people type: lengths, times, temperatures, strengths."""

from toneladder.quantities.bath import read_strength, read_temperature, write_temperature
from toneladder.quantities.days import read_day
from toneladder.quantities.lengths import read_length, read_size, write_length, write_size
from toneladder.quantities.manner import Manner
from toneladder.quantities.times import (
    read_bite,
    read_time_of_day,
    write_bite,
    write_range,
    write_time_of_day,
)
from toneladder.quantities.tones import (
    read_angle,
    read_darkness,
    read_number,
    write_darkness,
    write_number,
)

__all__ = [
    "Manner",
    "read_angle",
    "read_bite",
    "read_darkness",
    "read_day",
    "read_length",
    "read_number",
    "read_size",
    "read_strength",
    "read_temperature",
    "read_time_of_day",
    "write_bite",
    "write_darkness",
    "write_length",
    "write_number",
    "write_range",
    "write_size",
    "write_temperature",
    "write_time_of_day",
]
