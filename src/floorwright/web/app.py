"""The app: every route, each of which calls one function and hands on what it gives. Read this first."""

from __future__ import annotations

import asyncio
import json
import logging
from contextlib import asynccontextmanager
from dataclasses import dataclass
from typing import TYPE_CHECKING, Annotated, Any, Final
from uuid import uuid4

from fastapi import Depends, FastAPI, Path, Request
from fastapi.exceptions import RequestValidationError
from fastapi.responses import JSONResponse, Response, StreamingResponse
from starlette.exceptions import HTTPException

from floorwright.errors import FloorwrightValueError
from floorwright.export.folder import digest as digest_of
from floorwright.job.write.edit import Edit, EditClashError, EditError
from floorwright.web.answers import (
    Beside,
    Card,
    EditsAsked,
    JobFile,
    Jobs,
    NameAsked,
    PlaceAsked,
    Refused,
    StartAsked,
    TextAsked,
)
from floorwright.web.blank import blank, examples
from floorwright.web.book import Book
from floorwright.web.desk import Desk, NothingThereError, Opened, StaleError
from floorwright.web.gate import Gate, fault
from floorwright.web.guard import Guard, security_headers
from floorwright.web.pages import page, script_hashes, static_file
from floorwright.web.shelf import LARGEST_BESIDE, Shelf, ShelfError
from floorwright.web.workers import OverTimeError, SupersededError, Workers, WorkersError

if TYPE_CHECKING:
    from collections.abc import AsyncIterator, Callable
    from pathlib import Path as FilePath

    from floorwright.web.pages import Static
    from floorwright.web.shelf import Kept

QUICK_SECONDS: Final = 30.0
SLOW_SECONDS: Final = 600.0

JSON: Final = "application/json"
KEPT: Final = "public, max-age=31536000, immutable"
NOT_KEPT: Final = "no-cache"

LOG: Final = logging.getLogger("floorwright")


class UnsolvedError(FloorwrightValueError):
    """A position on a floor that is not worked out."""


STATUS: Final[dict[type[Exception], tuple[int, str]]] = {
    EditClashError: (409, "clash"),
    StaleError: (409, "stale"),
    NothingThereError: (409, "nothing"),
    UnsolvedError: (409, "unsolved"),
    SupersededError: (409, "superseded"),
    EditError: (422, "edit"),
    ShelfError: (404, "job"),
    OverTimeError: (504, "time"),
    FloorwrightValueError: (422, "value"),
}
"""Exception -> status and code; the first that it is an instance of."""


@dataclass(slots=True, eq=False)
class Office:
    """What every route works with.

    Attributes:
        desk: the jobs.
        quick: for what a person waits for, such as the room as it is measured.
        slow: for searches and packs.
        hand: for patterns that are being moved.
        shelf: for the pictures of the list of jobs, which keep no job from being opened.
        grounds: name of a job -> digest of its text as solved last, and what its patterns are moved over, after the
            digest of that.
        packs: name of a job -> digest of its text, and the files of the pack that was made of it last.
    """

    desk: Desk
    quick: Workers
    slow: Workers
    hand: Workers
    shelf: Workers
    grounds: dict[str, tuple[str, str, bytes]]
    packs: dict[str, tuple[str, dict[str, bytes]]]


def create_app(folder: FilePath, guard: Guard) -> FastAPI:
    """Returns the app over a folder of job files.

    Args:
        folder: must be there.
        guard: what a request must show.
    """
    book = Book(folder)
    desk = Desk(Shelf(folder), book)
    office = Office(
        desk=desk,
        quick=Workers(1),
        slow=Workers(2),
        hand=Workers(1),
        shelf=Workers(1, behind=True),
        grounds={},
        packs={},
    )

    @asynccontextmanager
    async def lifespan(_app: FastAPI) -> AsyncIterator[None]:
        yield
        office.quick.close()
        office.slow.close()
        office.hand.close()
        office.shelf.close()
        book.close()

    app = FastAPI(
        title="floorwright",
        lifespan=lifespan,
        docs_url=None,
        redoc_url=None,
        openapi_url="/api/openapi.json",
        responses={status: {"model": Refused} for status in (401, 403, 404, 409, 413, 421, 422, 504)},
    )
    app.state.office = office
    app.add_middleware(Gate, guard=guard, headers=security_headers(script_hashes()))
    _tell_faults(app)
    _job_routes(app)
    _catalogue_routes(app)
    _work_routes(app)
    _setout_routes(app)
    _page_routes(app)
    return app


def _office(request: Request) -> Office:
    office: Office = request.app.state.office
    return office


Staff = Annotated[Office, Depends(_office)]
JobName = Annotated[str, Path(min_length=1, max_length=80)]
FileName = Annotated[str, Path(min_length=1, max_length=90)]


def _tell_faults(app: FastAPI) -> None:
    """Gives every error the one shape. None names a path: what is wrong with the disk is in the log."""

    @app.exception_handler(HTTPException)
    async def unknown(_request: Request, error: HTTPException) -> JSONResponse:
        return fault(error.status_code, "http", str(error.detail))

    @app.exception_handler(RequestValidationError)
    async def misshapen(_request: Request, error: RequestValidationError) -> JSONResponse:
        first = error.errors()[0]
        where = ".".join(str(step) for step in first["loc"])
        return fault(422, "shape", f"{where}: {first['msg']}")

    async def failed(request: Request, error: Exception) -> JSONResponse:
        LOG.error("%s %s failed: %s", request.method, request.url.path, error)
        return fault(500, "fault", "floorwright failed at this, which is no fault of yours; the terminal says how")

    app.add_exception_handler(WorkersError, failed)
    # Of anything else the server writes the trace as well, to the terminal alone.
    app.add_exception_handler(Exception, failed)

    async def refused(_request: Request, error: Exception) -> JSONResponse:
        status, code = next(found for kind, found in STATUS.items() if isinstance(error, kind))
        clash = error if isinstance(error, EditClashError) else None
        more = {"path": list(clash.path), "before": clash.before, "now": clash.now} if clash else {}
        return fault(status, code, str(error), **more)

    for kind in STATUS:
        app.add_exception_handler(kind, refused)


def _job_file(opened: Opened) -> JobFile:
    kept, line = opened.kept, opened.line
    return JobFile(
        name=kept.name,
        text=kept.text,
        digest=kept.digest,
        number=line.number,
        undo=line.undo,
        redo=line.redo,
        merged=opened.merged,
    )


def _job_routes(app: FastAPI) -> None:
    @app.get("/api/jobs")
    def jobs(office: Staff) -> Jobs:
        """The jobs in the folder."""
        shelf = office.desk.shelf
        names = shelf.names()
        changed = {name: shelf.changed(name) for name in names}
        return Jobs(folder=shelf.folder.name, jobs=names, changed=changed, examples=list(examples()))

    @app.post("/api/jobs", status_code=201)
    def start(asked: StartAsked, office: Staff) -> JobFile:
        """Starts a job."""
        return _job_file(office.desk.start(asked.name, _starting_text(asked), "started"))

    @app.get("/api/jobs/{name}")
    def job(name: JobName, office: Staff) -> JobFile:
        """A job file as it stands."""
        return _job_file(office.desk.open(name))

    @app.post("/api/jobs/{name}/copy", status_code=201)
    def copy(name: JobName, asked: NameAsked, office: Staff) -> JobFile:
        """Copies a job."""
        return _job_file(office.desk.copy(name, asked.name))

    @app.post("/api/jobs/{name}/rename")
    def rename(name: JobName, asked: NameAsked, office: Staff) -> JobFile:
        """Gives a job another name."""
        return _job_file(office.desk.rename(name, asked.name))

    @app.post("/api/jobs/{name}/edits")
    def edit(name: JobName, asked: EditsAsked, office: Staff) -> JobFile:
        """Edits a job file, all edits or none."""
        edits = [Edit(do=one.do, path=tuple(one.path), value=one.value) for one in asked.edits]
        return _job_file(office.desk.edit(name, asked.base, asked.label, edits))

    @app.post("/api/jobs/{name}/text")
    def write(name: JobName, asked: TextAsked, office: Staff) -> JobFile:
        """Puts a whole new text in the file."""
        return _job_file(office.desk.write(name, asked.base, asked.label, asked.text))

    @app.post("/api/beside/{file}", status_code=201)
    async def put_beside(
        file: Annotated[str, Path(min_length=1, max_length=90)], request: Request, office: Staff
    ) -> Beside:
        """Puts a drawing or a table beside the jobs, as it is sent."""
        content = bytearray()
        async for part in request.stream():
            content += part
            if len(content) > LARGEST_BESIDE:
                raise HTTPException(413, f"a file may be {LARGEST_BESIDE // 1_000_000} MB at most")
        return Beside(file=await asyncio.to_thread(office.desk.shelf.put_beside, file, bytes(content)))

    @app.post("/api/jobs/{name}/undo")
    def undo(name: JobName, office: Staff) -> JobFile:
        """Takes the last edit back."""
        return _job_file(office.desk.undo(name))

    @app.post("/api/jobs/{name}/redo")
    def redo(name: JobName, office: Staff) -> JobFile:
        """Does again what was undone last."""
        return _job_file(office.desk.redo(name))


def _starting_text(asked: StartAsked) -> str:
    if asked.text is not None:
        return asked.text
    if asked.example is not None:
        known = examples()
        if asked.example not in known:
            raise FloorwrightValueError(f"there is no example called {asked.example!r}: {', '.join(known)}")
        return known[asked.example]
    return blank(title=asked.name, corners=asked.corners, inward=tuple(asked.inward), imperial=asked.imperial)


def _catalogue_routes(app: FastAPI) -> None:
    @app.get("/api/patterns")
    async def patterns(office: Staff) -> Response:
        """The catalogue of patterns, each with what it takes and a small drawing."""
        # Nobody is in anybody's way here: each asks in a lane of its own.
        found = await office.slow.run("patterns", lane=f"patterns {uuid4()}", seconds=QUICK_SECONDS)
        return Response(found, media_type=JSON)


def _work_routes(app: FastAPI) -> None:
    @app.get("/api/jobs/{name}/measured")
    async def measured(name: JobName, office: Staff) -> Response:
        """The readings adjusted, and the room that they make."""
        kept = (await asyncio.to_thread(office.desk.open, name)).kept
        given = (kept.text, name, str(office.desk.shelf.folder))
        found = await office.quick.run("measured", *given, lane=f"measured {name}", seconds=QUICK_SECONDS)
        return Response(found, media_type=JSON, headers={"x-digest": kept.digest})

    @app.get("/api/jobs/{name}/card", response_model=Card)
    async def card(name: JobName, office: Staff) -> Response:
        """What a list of jobs shows of a job."""
        opened, known = await asyncio.to_thread(office.desk.card, name)
        if known is None:
            given = (opened.kept.text, name, str(office.desk.shelf.folder))
            known = await office.shelf.run("card", *given, lane=f"card {name}", seconds=QUICK_SECONDS)
            await asyncio.to_thread(office.desk.keep_card, name, opened.kept.digest, known)
        return Response(known, media_type=JSON)

    @app.get("/api/jobs/{name}/solved")
    async def solved(name: JobName, office: Staff) -> StreamingResponse:
        """Everything there is to know of a job, as events: `progress`, then `solved` or `failed`."""
        kept = (await asyncio.to_thread(office.desk.open, name)).kept

        def handed_over(result: tuple[str, bytes]) -> str:
            found, grounds = result
            office.grounds[name] = (kept.digest, digest_of(grounds), grounds)
            return f'event: solved\ndata: {{"digest": "{kept.digest}", "result": {found}}}\n\n'

        return StreamingResponse(_events(office, "solved", kept, handed_over), media_type="text/event-stream")

    @app.post("/api/jobs/{name}/place")
    async def place(name: JobName, asked: PlaceAsked, office: Staff) -> Response:
        """What another position of a pattern comes to."""
        digest, key, grounds = office.grounds.get(name, ("", "", b""))
        if digest != asked.digest:
            raise UnsolvedError(f"{name} has changed since it was worked out: work it out again, then move the pattern")
        where = (asked.zone, asked.x_mm, asked.y_mm, asked.angle_deg, asked.pieces)
        found = await office.hand.run("placed", key, grounds, where, lane=f"place {name}", seconds=QUICK_SECONDS)
        if not found:
            raise ShelfError(f"{name} has no zone called {asked.zone} that could be moved")
        return Response(found, media_type=JSON)

    @app.post("/api/jobs/{name}/stop")
    async def stop(name: JobName, office: Staff) -> dict[str, bool]:
        """Has the search end with the best that it has."""
        return {"stopped": office.slow.stop(f"solved {name}")}

    @app.get("/api/jobs/{name}/pack")
    async def make_pack(name: JobName, office: Staff) -> StreamingResponse:
        """Makes the pack, as events: `progress`, then `packed` with its files and their sizes, or `failed`."""
        kept = (await asyncio.to_thread(office.desk.open, name)).kept

        def handed_over(files: dict[str, bytes]) -> str:
            office.packs.clear()
            office.packs[name] = (kept.digest, files)
            told = [{"file": file, "bytes": len(content)} for file, content in files.items()]
            return _event("packed", {"digest": kept.digest, "files": told})

        return StreamingResponse(_events(office, "packed", kept, handed_over), media_type="text/event-stream")

    @app.get("/api/jobs/{name}/files/{file}")
    async def pack_file(name: JobName, file: FileName, office: Staff) -> Response:
        """A file of the pack, or all of them as `pack.zip`."""
        kept = (await asyncio.to_thread(office.desk.open, name)).kept
        digest, files = office.packs.get(name, ("", {}))
        if digest != kept.digest:
            given = (kept.text, name, str(office.desk.shelf.folder))
            files = await office.slow.run("packed", *given, lane=f"packed {name}", seconds=SLOW_SECONDS)
        return _download(files, file, name)


def _setout_routes(app: FastAPI) -> None:
    @app.get("/api/jobs/{name}/compared")
    async def compared(name: JobName, office: Staff) -> Response:
        """Every first line and centre that the room offers, and what each costs."""
        kept = (await asyncio.to_thread(office.desk.open, name)).kept
        given = (kept.text, name, str(office.desk.shelf.folder))
        found = await office.slow.run("compared", *given, lane=f"compared {name}", seconds=SLOW_SECONDS)
        return Response(found, media_type=JSON, headers={"x-digest": kept.digest})


async def _events(office: Office, task: str, kept: Kept, handed_over: Callable[[Any], str]) -> AsyncIterator[str]:
    """Yields what a slow task tells of a job, and last the event that what it comes to is made into."""
    news: asyncio.Queue[tuple[str, Any]] = asyncio.Queue()

    def tell(what: str, share: float) -> None:
        news.put_nowait(("progress", {"what": what, "share": share}))

    given = (kept.text, kept.name, str(office.desk.shelf.folder))
    work = asyncio.ensure_future(
        office.slow.run(task, *given, lane=f"{task} {kept.name}", seconds=SLOW_SECONDS, tell=tell)
    )
    try:
        while not work.done() or not news.empty():
            waiting = asyncio.ensure_future(news.get())
            try:
                await asyncio.wait({work, waiting}, return_when=asyncio.FIRST_COMPLETED)
                if waiting.done():
                    yield _event(*waiting.result())
            finally:
                waiting.cancel()
        try:
            yield handed_over(work.result())
        except SupersededError:
            yield _event("failed", {"code": "superseded", "message": "something newer took its place"})
        except OverTimeError:
            yield _event("failed", {"code": "time", "message": "this took too long and was ended"})
        except WorkersError as error:
            LOG.error("%s: %s failed: %s", kept.name, task, error)
            yield _event("failed", {"code": "fault", "message": "floorwright failed at this; the terminal says how"})
    finally:
        # Whoever asked has gone: nobody waits for it.
        work.cancel()


def _event(kind: str, value: Any) -> str:
    return f"event: {kind}\ndata: {json.dumps(value, ensure_ascii=False)}\n\n"


TYPES: Final = {"pdf": "application/pdf", "svg": "image/svg+xml", "dxf": "image/vnd.dxf", "csv": "text/csv"}


def _download(files: dict[str, bytes], file: str, name: str) -> Response:
    if file == "pack.zip" and files:
        return _attached(_zipped(files), "application/zip", f"{name}.zip")
    if file not in files:
        there = f": there are {', '.join(files)}" if files else ": the job file cannot be read as a job"
        raise ShelfError(f"there is no {file} in the pack of {name}{there}")
    return _attached(files[file], TYPES.get(file.rpartition(".")[2], "application/octet-stream"), f"{name} {file}")


def _attached(content: bytes, kind: str, name: str) -> Response:
    from urllib.parse import quote

    headers = {"content-disposition": f"attachment; filename*=utf-8''{quote(name)}"}
    return Response(content, media_type=kind, headers=headers)


def _zipped(files: dict[str, bytes]) -> bytes:
    from io import BytesIO
    from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

    whole = BytesIO()
    with ZipFile(whole, "w", ZIP_DEFLATED) as archive:
        for name, content in files.items():
            archive.writestr(ZipInfo(name), content, ZIP_DEFLATED)
    return whole.getvalue()


def _page_routes(app: FastAPI) -> None:
    @app.get("/", include_in_schema=False)
    async def home(request: Request) -> Response:
        return _sent(request, page(), NOT_KEPT)

    @app.get("/static/{file:path}", include_in_schema=False)
    async def static(file: str, request: Request) -> Response:
        found = static_file(file)
        if found is None:
            raise HTTPException(404, "there is no such file")
        one, kept = found
        return _sent(request, one, KEPT if kept else NOT_KEPT)


def _sent(request: Request, one: Static, keeping: str) -> Response:
    headers = {"cache-control": keeping, "vary": "accept-encoding"}
    if "gzip" not in request.headers.get("accept-encoding", ""):
        return Response(one.content, media_type=one.kind, headers=headers)
    return Response(one.zipped, media_type=one.kind, headers={**headers, "content-encoding": "gzip"})
