"""Styles, scripts and fonts. Under an address that has the digest of all of them, a browser keeps them for good."""

import os
from hashlib import sha256
from pathlib import Path

from fastapi.staticfiles import StaticFiles
from starlette.responses import Response
from starlette.types import Scope

from webapp.server.folders import STATIC

FOR_GOOD = "public, max-age=31536000, immutable"
"""A year, after RFC 9111 and RFC 8246: what lies at such an address never changes."""


def digest_of(folder: Path) -> str:
    """The digest of all files of a folder, with their names."""
    digest = sha256()
    for path in sorted(one for one in folder.rglob("*") if one.is_file()):
        digest.update(f"{path.relative_to(folder).as_posix()}\0".encode())
        digest.update(path.read_bytes())
    return digest.hexdigest()[:16]


DIGEST = digest_of(STATIC)
AT = f"/static/{DIGEST}"
"""Where pages find them."""


class KeptFiles(StaticFiles):
    """The files of the folder, each under its own name and under the digest with its name."""

    async def get_response(self, path: str, scope: Scope) -> Response:
        """Answer with a file; one that is asked for by the digest is kept."""
        digest, _, name = path.partition(os.sep)
        if digest != DIGEST:
            return await super().get_response(path, scope)
        answer = await super().get_response(name, scope)
        answer.headers["cache-control"] = FOR_GOOD
        return answer
