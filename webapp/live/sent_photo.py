"""The photo that a form sends."""

from typing import Annotated

from fastapi import Depends, Request
from starlette.datastructures import UploadFile

from webapp.server.rates import Rates


async def sent_photo(request: Request) -> bytes:
    """Read the chosen file from a form."""
    rates: Rates = request.app.state.rates
    rates.take("photo", request.client.host if request.client else "")
    async with request.form() as form:
        file = form.get("photo")
        return await file.read() if isinstance(file, UploadFile) else b""


SentPhoto = Annotated[bytes, Depends(sent_photo)]
"""The chosen file, as an argument of a route."""
