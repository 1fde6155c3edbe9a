"""A server for the network too."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from serving import serving


@pytest.fixture
def app(tmp_path: Path) -> Any:
    """A server for the network too; the browser finds every name in .test at this computer."""
    from webapp.app import create_app

    return create_app(data_dir=tmp_path / "data", names=("shop.test",))


@pytest.fixture
def address(app: Any) -> Iterator[str]:
    """Its address."""
    with serving(app) as found:
        yield found
