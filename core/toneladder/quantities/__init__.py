"""Read and write the quantities people type: lengths, times, temperatures, strengths.

There is one way to write each, for screens, sheets and the command alike: `written` says how.
"""

from toneladder.quantities.bath import (
    read_strength,
    read_temperature,
    write_temperature,
    write_warmer,
)
from toneladder.quantities.days import read_day, write_day
from toneladder.quantities.lengths import (
    read_length,
    read_size,
    write_area,
    write_drawn,
    write_grain,
    write_length,
    write_painted,
    write_size,
    write_span,
)
from toneladder.quantities.manner import Manner, Scale, write_as, written
from toneladder.quantities.times import (
    read_bite,
    read_time_of_day,
    rough_range,
    write_between,
    write_bite,
    write_least,
    write_minutes,
    write_range,
    write_time_of_day,
)
from toneladder.quantities.tones import (
    name_apart,
    name_tone,
    read_angle,
    read_number,
    read_tone,
    scale_name,
    tone_figure,
    tone_mark,
    write_apart,
    write_number,
    write_percent,
    write_tone,
    write_tones,
)

__all__ = [
    "Manner",
    "Scale",
    "name_apart",
    "name_tone",
    "read_angle",
    "read_bite",
    "read_day",
    "read_length",
    "read_number",
    "read_size",
    "read_strength",
    "read_temperature",
    "read_time_of_day",
    "read_tone",
    "rough_range",
    "scale_name",
    "tone_figure",
    "tone_mark",
    "write_apart",
    "write_area",
    "write_as",
    "write_between",
    "write_bite",
    "write_day",
    "write_drawn",
    "write_grain",
    "write_least",
    "write_length",
    "write_minutes",
    "write_number",
    "write_painted",
    "write_percent",
    "write_range",
    "write_size",
    "write_span",
    "write_temperature",
    "write_time_of_day",
    "write_tone",
    "write_tones",
    "write_warmer",
    "written",
]
