"""What stands before every request: who may ask, from where, how much; and what every answer carries.

One plain ASGI layer. Host names first (a foreign name that resolves to this machine is refused), then the
origin of requests that write, then the size of the body, which is counted while it comes in. What fails
inside is answered here too, so that this answer carries the same headers.
"""

from __future__ import annotations

import asyncio
import ipaddress
import logging
import os
import re
from collections.abc import Callable, Sequence
from typing import Final
from urllib.parse import urlsplit

from starlette.datastructures import Headers, MutableHeaders
from starlette.requests import ClientDisconnect, Request
from starlette.responses import JSONResponse, Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from drawerwright.errors import Fault

_log = logging.getLogger("drawerwright.web")

SAFE_METHODS: Final = ("GET", "HEAD", "OPTIONS")
CONTENT_POLICY: Final = (
    "default-src 'self'; base-uri 'none'; form-action 'self'; frame-ancestors 'none'; object-src 'none'"
)
ANSWER_HEADERS: Final = {
    "Content-Security-Policy": CONTENT_POLICY,
    "X-Content-Type-Options": "nosniff",
    "X-Frame-Options": "DENY",
    "Referrer-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
}


_HOST: Final = re.compile(r"(?P<name>\[[0-9a-f:.]+\]|[^:\[\]]+)(?::(?P<port>[0-9]{0,5}))?")
_LAST_PORT: Final = 65535
"""Ports have 16 bits (RFC 9293 §3.1)."""


class BodyTooLarge(Exception):
    """A body that grew beyond the cap while it was read."""


class Guard:
    """The layer around the application. `by_address`: it may also be asked by any bare network address."""

    def __init__(
        self,
        app: ASGIApp,
        *,
        hosts: Sequence[str],
        body_cap: int,
        broken: Callable[[Request], Response],
        too_large: Callable[[Request, Fault], Response],
        by_address: bool = False,
    ) -> None:
        self.app = app
        self.refused_page = too_large
        self.broken = broken
        self.by_address = by_address
        self.hosts = tuple(host.lower() for host in hosts)
        self.body_cap = body_cap

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Let a request through, or answer it here."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        headers = Headers(scope=scope)
        refusal = self._refusal(scope, headers)
        if refusal is not None:
            await refusal(scope, receive, _with_headers(send))
            return
        started, read = False, 0

        async def counted() -> Message:
            nonlocal read
            message = await receive()
            if message["type"] == "http.request":
                read += len(message.get("body", b""))
                if read > self.body_cap:
                    raise BodyTooLarge
            return message

        async def noted(message: Message) -> None:
            nonlocal started
            started = started or message["type"] == "http.response.start"
            await sender(message)

        sender = _with_headers(send)
        try:
            await self.app(scope, counted, noted)
        except BodyTooLarge:
            if started:
                raise
            await self._too_large(scope, headers, f"over {self.body_cap}")(scope, receive, sender)
        except ClientDisconnect:
            return
        except asyncio.CancelledError:
            # Only the server's end does that: who waited is told, and nothing is wrong with the program.
            if not started:
                says = "was not answered: the server ends"
                ends = _refused(503, "the request", "", says, "the same again in a moment")
                await ends(scope, receive, sender)
        except Exception as error:
            traced = bool(os.environ.get("DRAWERWRIGHT_DEBUG"))
            _log.error("%s %s failed: %r", scope["method"], ascii(scope["path"]), error, exc_info=traced)
            if started:
                raise
            await self.broken(Request(scope))(scope, receive, sender)

    def _refusal(self, scope: Scope, headers: Headers) -> Response | None:
        method = scope["method"]
        host = headers.get("host", "")
        if not self._is_ours(host):
            says = "is not a name of this server"
            return _refused(400, "Host", host, says, self.hosts[0] if self.hosts else "")
        if "transfer-encoding" in headers and "content-length" in headers:
            says = "stands beside Transfer-Encoding: where the body ends is told twice"
            twice = _refused(400, "Content-Length", headers["content-length"], says, "one of the two")
            twice.headers["Connection"] = "close"
            return twice
        if "\0" in scope["path"]:
            return _refused(400, "the address", ascii(scope["path"]), "holds a zero byte", "/jobs")
        site, origin = headers.get("sec-fetch-site"), headers.get("origin")
        foreign = site is not None and site not in ("same-origin", "none")
        if foreign and headers.get("sec-fetch-mode", "navigate") != "navigate":
            says = "a page of another site may lead here, and not fetch from here"
            return _refused(403, "Sec-Fetch-Site", str(site), says, "a link")
        if method not in SAFE_METHODS:
            if foreign:
                says = "a page of another site may not write here"
                return _refused(403, "Sec-Fetch-Site", str(site), says, "this server's own pages")
            if site is None and origin is not None and not _is_from(origin, host):
                says = "a page of another site may not write here"
                return _refused(403, "Origin", origin, says, "this server's own pages")
            length = headers.get("content-length", "")
            if length.isdigit() and int(length) > self.body_cap:
                return self._too_large(scope, headers, length)
        return None

    def _is_ours(self, host: str) -> bool:
        name = _name_of(host)
        return name in self.hosts or (self.by_address and _is_address(name))

    def _too_large(self, scope: Scope, headers: Headers, found: str) -> Response:
        says = f"bytes are more than the {self.body_cap} that are read"
        if "text/html" in headers.get("accept", "") and not scope["path"].startswith("/api/"):
            says = f"is larger than the {self.body_cap / 1e6:g} MB that are read"
            fault = Fault("the file", "", says, "a smaller file, or several")
            return self.refused_page(Request(scope), fault)
        return _refused(413, "the body", found, says, "a smaller file, or several")


def _name_of(host: str) -> str:
    """A host header's name, its port left out (RFC 9110 §7.2); "" where it is no host with a port."""
    name = host.lower()
    if name.count(":") > 1 and not name.startswith("["):
        return name  # a bare address
    told = _HOST.fullmatch(name)
    return told["name"] if told is not None and int(told["port"] or 0) <= _LAST_PORT else ""


def _is_address(name: str) -> bool:
    """Whether a name is a bare network address: no foreign name server can make one lead here."""
    try:
        ipaddress.ip_address(name.strip("[]"))
    except ValueError:
        return False
    return True


def _is_from(origin: str, host: str) -> bool:
    return urlsplit(origin).netloc.lower() == host.lower()


def _refused(status: int, where: str, value: str, says: str, try_: str) -> JSONResponse:
    return JSONResponse({"errors": [Fault(where, value[:200], says, try_).as_json()]}, status)


def _with_headers(send: Send) -> Send:
    async def sender(message: Message) -> None:
        if message["type"] == "http.response.start":
            headers = MutableHeaders(scope=message)
            for name, value in ANSWER_HEADERS.items():
                headers.setdefault(name, value)
            headers.setdefault("Cache-Control", "no-store")
        await send(message)

    return sender
