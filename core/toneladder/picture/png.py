"""PNG pictures of 16 bits a channel."""

from toneladder.picture.heading import Heading, Strips
from toneladder.picture.plain import begun, notes_of_number, orientation_of, pictures_in, sound
from toneladder.picture.samples import whole_number_strips

_CHANNELS = {0: 1, 2: 3, 4: 1, 6: 3}
_WITH_COVER = (4, 6)


def png_is_deep(data: bytes) -> bool:
    """Whether a PNG picture has 16 bits a channel."""
    return data[12:16] == b"IHDR" and data[24:25] == b"\x10"


def deep_png_heading(data: bytes) -> Heading:
    """Heading of a PNG picture of 16 bits a channel."""
    image = begun(data, "PNG")
    width, height = image.size
    channels = _CHANNELS[data[25]]
    clear = data[25] in _WITH_COVER or "transparency" in image.info
    profile = image.info.get("icc_profile") or b""

    def decode() -> Strips:
        import imagecodecs

        sound(image, data)  # the decoder must not meet a damaged file
        samples = imagecodecs.png_decode(data).reshape(height, width, channels + clear)
        return whole_number_strips(samples, 16, channels, profile, clear=clear)

    return Heading(
        width=width,
        height=height,
        depth=16,
        decoded_bytes=width * height * (channels + clear) * 2,
        orientation=orientation_of(image),
        notes=notes_of_number(pictures_in(image)),
        decode=decode,
    )
