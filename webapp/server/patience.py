"""How long a connection may keep this server waiting: for a request, for its body, for an answer to be taken.

While an answer is worked out nothing is held against a connection. Whoever is overdue is cut off without a word, since
there is nobody who listens: a request that was only begun changes nothing.
"""

from asyncio import Transport
from collections.abc import Awaitable, Callable
from math import inf

from starlette.types import ASGIApp
from uvicorn import Config
from uvicorn.protocols.http.h11_impl import H11Protocol

from webapp.server.door import Caller, is_this_computer
from webapp.server.room import make_room
from webapp.settings import HEAD_S, LEAVING_S, LOOK_S, QUIET_S, STOPPING_S, TAKEN_AT_ONCE, WHOLE_S


class PatientProtocol(H11Protocol):
    """One connection, with deadlines, that makes room for others."""

    def connection_made(self, transport: Transport) -> None:  # type: ignore[override]
        """Come in, and make room; where there is none, say so to the guard in what it is told of each request."""
        super().connection_made(transport)
        self._begun_at = self._heard_at = self._looked_at = self.loop.time()
        self._has_begun = self._is_leaving = False
        self._unsent = 0
        staying = [one for one in self.connections if isinstance(one, PatientProtocol) and not one.is_gone]
        if not make_room(self, staying):
            self.app_state = self.app_state | {"is_crowded": True}
        self._look()

    def data_received(self, data: bytes) -> None:
        """Take what was sent. The pieces of a head are no sign of life, those of a body are."""
        if not self._is_answering and not self._has_begun:
            self._begin()
        super().data_received(data)
        if self._is_answering:
            self._heard_at = self.loop.time()

    def on_response_complete(self) -> None:
        """Wait for the next request."""
        self._begin()
        self._has_begun = False
        super().on_response_complete()

    def connection_lost(self, exc: Exception | None) -> None:
        """Look no more."""
        self._looking.cancel()
        super().connection_lost(exc)

    def shutdown(self) -> None:
        """The server stops: whoever has not sent all of a request has changed nothing, and goes."""
        self._is_leaving = True
        if self._is_sending_body:
            self.leave()
        else:
            super().shutdown()

    @property
    def address(self) -> str:
        """Where the connection comes from."""
        return self.client[0] if self.client else ""

    @property
    def is_stranger(self) -> bool:
        """Whether neither the connection is this computer's nor its newest request came from a paired device."""
        caller = self.scope["state"].get("caller") if self.scope else None
        return caller is not Caller.PAIRED and not is_this_computer(self.client)

    @property
    def waiting_since(self) -> float | None:
        """Since when it is the other side's turn; None while an answer is worked out."""
        return self._heard_at if self._patience_s < inf else None

    @property
    def is_gone(self) -> bool:
        """Whether it is closed, or as good as."""
        return self.transport.is_closing()

    def leave(self) -> None:
        """Go at once, whatever has not been sent yet."""
        self.transport.abort()

    @property
    def _is_answering(self) -> bool:
        return self.cycle is not None and not self.cycle.response_complete

    @property
    def _is_sending_body(self) -> bool:
        return self._is_answering and self.cycle.more_body and not self.flow.read_paused

    @property
    def _patience_s(self) -> float:
        """How long the other side may be silent now."""
        if self._unsent_bytes or self._is_sending_body:
            return LEAVING_S if self._is_leaving else QUIET_S
        return inf if self._is_answering else HEAD_S

    @property
    def _unsent_bytes(self) -> int:
        return self.transport.get_write_buffer_size()

    def _begin(self) -> None:
        self._begun_at = self._heard_at = self.loop.time()
        self._has_begun = True

    def _look(self) -> None:
        """See whether the other side is overdue, and look again soon; while an answer is made, time stands still."""
        now, unsent = self.loop.time(), self._unsent_bytes
        if self._patience_s == inf or unsent < self._unsent:
            self._heard_at = now
        if self._patience_s == inf:
            self._begun_at += now - max(self._looked_at, self._begun_at)
        self._unsent, self._looked_at = unsent, now
        if now - self._heard_at > self._patience_s or (self._patience_s < inf and now - self._begun_at > WHOLE_S):
            self.leave()
        self._looking = self.loop.call_later(LOOK_S, self._look)


def patient_config(app: ASGIApp, *, each_second: Callable[[], Awaitable[None]] | None = None) -> Config:
    """How an application is served: by connections with deadlines, no word about a caller believed but its own."""
    return Config(
        app,
        http=PatientProtocol,
        ws="none",
        backlog=TAKEN_AT_ONCE,
        log_level="warning",
        access_log=False,
        proxy_headers=False,
        timeout_keep_alive=HEAD_S,
        timeout_graceful_shutdown=STOPPING_S,
        callback_notify=each_second,
        timeout_notify=0,
    )
