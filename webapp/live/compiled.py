"""Templates as they were compiled, kept from one start to the next as Python keeps its modules.

A page is put together from up to thirty templates; compiling them takes as long as all else about its first answer.
"""

import os
import sys
from contextlib import suppress
from hashlib import sha256
from pathlib import Path

import jinja2
from jinja2.bccache import Bucket, BytecodeCache

from webapp.data.disk import temporary_beside
from webapp.live import render
from webapp.settings import usual_cache_folder


class CompiledTemplates(BytecodeCache):
    """Compiled templates in a folder that may be thrown away; a disk that refuses keeps nobody from a page.

    One is taken only while everything is the same that it was made from: the template, the library, and the file that
    says how templates are read, with the filters that may be worked out already. A digest tells whether it is whole.
    """

    def __init__(self, folder: Path, *, made_by: Path) -> None:
        self._folder = folder
        self._made_by = sha256(jinja2.__version__.encode() + made_by.read_bytes()).hexdigest()

    def get_source_checksum(self, source: str) -> str:
        """What a compiled template is made from, in short."""
        return sha256(f"{self._made_by} {source}".encode()).hexdigest()

    def load_bytecode(self, bucket: Bucket) -> None:
        """Take a template, if it is there and whole."""
        with suppress(OSError):
            digest, content = _parted((self._folder / bucket.key).read_bytes())
            if sha256(content).digest() == digest:
                bucket.bytecode_from_string(content)

    def dump_bytecode(self, bucket: Bucket) -> None:
        """Keep a template; not where Python itself is to write nothing."""
        if sys.dont_write_bytecode:
            return
        content = bucket.bytecode_to_string()
        with suppress(OSError):
            self._folder.mkdir(mode=0o700, parents=True, exist_ok=True)
            with temporary_beside(path := self._folder / bucket.key) as temporary:
                temporary.write_bytes(sha256(content).digest() + content)
                os.replace(temporary, path)


def keep_compiled() -> None:
    """From now on, keep the templates of all pages where this platform keeps what a program can make again."""
    render.ENVIRONMENT.bytecode_cache = CompiledTemplates(
        usual_cache_folder() / "templates", made_by=Path(render.__file__)
    )


def _parted(kept: bytes) -> tuple[bytes, bytes]:
    size = sha256().digest_size
    return kept[:size], kept[size:]
