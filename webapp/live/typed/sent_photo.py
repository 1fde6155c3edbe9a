"""The photo that a form sends."""

from asyncio import Semaphore
from collections.abc import AsyncIterator
from typing import Annotated

from fastapi import Depends, Request
from starlette.datastructures import UploadFile

from webapp.server.rates import Rates


async def sent_photo(request: Request) -> AsyncIterator[bytes]:
    """Read the chosen file from a form, when the photos before it are taken in: until then it lies on the disk."""
    rates: Rates = request.app.state.rates
    turn: Semaphore = request.app.state.photo_turn
    rates.take("photo", request.client.host if request.client else "")
    async with request.form() as form, turn:
        file = form.get("photo")
        yield await file.read() if isinstance(file, UploadFile) else b""


SentPhoto = Annotated[bytes, Depends(sent_photo, scope="function")]
"""The chosen file, as an argument of a route."""
