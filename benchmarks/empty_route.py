"""What a quick answer over HTTP is measured against: an application whose one route answers `{}`."""

from __future__ import annotations

from fastapi import FastAPI

app = FastAPI()


@app.get("/")
async def empty() -> dict[str, str]:
    return {}
