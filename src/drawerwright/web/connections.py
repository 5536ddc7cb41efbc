"""One connection to the server: how long it waits for a request that does not come, and how many there are.

The server library reads what comes for as long as it comes. Here a request that is half sent is given up, a
connection too many is turned away, and what is no HTTP gets an answer of the same form as all others.
"""

from __future__ import annotations

import asyncio
import json
from typing import Final

import h11
from uvicorn.protocols.http.h11_impl import H11Protocol

from drawerwright.errors import Fault
from drawerwright.web.guard import ANSWER_HEADERS

SILENCE_SECONDS: Final = 20.0
"""How long a request's head may take in all, and its body between two pieces. Own choice."""

MOST_CONNECTIONS: Final = 500
"""Connections of one process: half of the 1,024 files that a process may usually have open. Own choice."""

_TURNED_AWAY: Final = (
    b"HTTP/1.1 503 Service Unavailable\r\nRetry-After: 5\r\nContent-Length: 0\r\nConnection: close\r\n\r\n"
)


class Connection(H11Protocol):
    """A connection that is not waited for without end."""

    silence_seconds = SILENCE_SECONDS
    most_connections = MOST_CONNECTIONS
    _timer: asyncio.TimerHandle | None = None
    _waiting_for: object = None

    def connection_made(self, transport: asyncio.Transport) -> None:  # type: ignore[override]
        """Begin to wait for a request, or turn the connection away where there are too many."""
        if len(self.connections) >= self.most_connections:
            self.transport = transport
            transport.write(_TURNED_AWAY)
            transport.close()
            return
        super().connection_made(transport)
        self._wait()

    def data_received(self, data: bytes) -> None:
        """Take a piece of a request."""
        if self.transport.is_closing():
            return
        super().data_received(data)
        self._wait()

    def connection_lost(self, exc: Exception | None) -> None:
        """Forget a connection that is gone."""
        self._stop_waiting()
        if self.flow is not None:
            super().connection_lost(exc)

    def shutdown(self) -> None:
        """Let a request under way end; one that is not all here is not waited for."""
        if self.conn.their_state is h11.SEND_BODY:
            self.transport.close()
        else:
            super().shutdown()

    def send_400_response(self, msg: str) -> None:
        """Answer what is no HTTP."""
        self._refuse(400, b"Bad Request", Fault("the request", "", "is not HTTP/1.1", "GET / HTTP/1.1"))

    def _wait(self) -> None:
        """Wait for the rest of a request: for its head once, for its body anew with every piece."""
        state = self.conn.their_state
        if state not in (h11.IDLE, h11.SEND_BODY):
            self._stop_waiting()
        elif self._timer is None or state is h11.SEND_BODY or self._waiting_for is not state:
            self._stop_waiting()
            self._waiting_for = state
            self._timer = self.loop.call_later(self.silence_seconds, self._waited)

    def _stop_waiting(self) -> None:
        if self._timer is not None:
            self._timer.cancel()
            self._timer = None

    def _waited(self) -> None:
        self._timer = None
        if self.transport.is_closing() or self.conn.their_state is not self._waiting_for:
            return
        if self.flow.read_paused:  # what is sent waits here
            self._wait()
        elif self.conn.our_state is h11.IDLE and self.conn.trailing_data[0]:
            says = f"did not come within {self.silence_seconds:g} s"
            self._refuse(408, b"Request Timeout", Fault("the request", "", says, "all of it at once"))
        else:
            self.transport.close()

    def _refuse(self, status: int, reason: bytes, fault: Fault) -> None:
        """Answer here, without the application, and close."""
        if self.conn.our_state not in (h11.IDLE, h11.SEND_RESPONSE):
            self.transport.close()
            return
        body = json.dumps({"errors": [fault.as_json()]}).encode()
        own = {"Content-Type": "application/json", "Content-Length": str(len(body)), "Connection": "close"}
        headers = [(key.encode(), text.encode()) for key, text in {**own, **ANSWER_HEADERS}.items()]
        for event in (
            h11.Response(status_code=status, headers=headers, reason=reason),
            h11.Data(data=body),
            h11.EndOfMessage(),
        ):
            self.transport.write(self.conn.send(event) or b"")
        self.transport.close()
