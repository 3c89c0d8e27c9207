"""WebP pictures."""

from toneladder.picture.heading import Heading, Strips
from toneladder.picture.plain import begun, orientation_of, pictures_in, plain_heading
from toneladder.picture.samples import whole_number_strips


def webp_heading(data: bytes) -> Heading:
    """Heading of a WebP picture.

    One that does not move is decoded straight into samples, which takes a quarter of the
    memory.
    """
    image = begun(data, "WebP")
    if pictures_in(image) > 1:
        return plain_heading(data, "WebP")
    width, height = image.size
    clear = image.mode == "RGBA"
    profile = image.info.get("icc_profile") or b""

    def decode() -> Strips:
        import imagecodecs

        samples = imagecodecs.webp_decode(data, hasalpha=clear)
        samples = samples.reshape(height, width, 3 + clear)
        return whole_number_strips(samples, 8, 3, profile, clear=clear)

    return Heading(
        width=width,
        height=height,
        depth=8,
        decoded_bytes=width * height * (3 + clear),
        orientation=orientation_of(image),
        notes=(),
        decode=decode,
    )
