"""A job with a photo and a price, served to the network."""

from typing import Any

import pytest
from shared import Job, start_job


@pytest.fixture
def job(lan_app: Any) -> Job:
    return start_job(lan_app)
