"""Small pictures of any kind, as they would be sent."""

import io

from PIL import Image


def encoded(image: Image.Image, kind: str = "JPEG", **more: object) -> bytes:
    written = io.BytesIO()
    image.save(written, kind, **more)
    return written.getvalue()


def noise(across: int = 400, up: int = 300) -> Image.Image:
    return Image.effect_noise((across, up), 60).convert("RGB")
