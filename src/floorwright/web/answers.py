"""The shapes of what the app is asked and answers; FastAPI checks them and describes them."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import BaseModel, ConfigDict, Field

Name = Annotated[str, Field(min_length=1, max_length=80)]
Step = Annotated[str, Field(max_length=200)] | Annotated[int, Field(ge=0, le=100_000)]
Label = Annotated[str, Field(min_length=1, max_length=200)]
Digest = Annotated[str, Field(pattern=r"^[0-9a-f]{64}$")]


class Asked(BaseModel):
    """Something asked, with no key but its own."""

    model_config = ConfigDict(extra="forbid")


class EditAsked(Asked):
    """One edit of a job file; see `job.edit.Edit`."""

    do: Literal["put", "add", "drop"] = "put"
    path: list[Step] = Field(min_length=1, max_length=12)
    value: Any = None


class EditsAsked(Asked):
    """Edits, made of the text with the digest `base`."""

    base: Digest
    label: Label
    edits: list[EditAsked] = Field(min_length=1, max_length=1000)


class TextAsked(Asked):
    """A whole new text in place of the one with the digest `base`."""

    base: Digest
    label: Label = "the file edited"
    text: str = Field(max_length=5_000_000)


class StartAsked(Asked):
    """A new job: from an example, from a text, or a blank room of so many corners."""

    name: Name
    example: str | None = Field(default=None, max_length=80)
    text: str | None = Field(default=None, max_length=5_000_000)
    corners: int = 4
    inward: list[str] = Field(default=[], max_length=26)
    imperial: bool = False


class NameAsked(Asked):
    """Another name for a job, or one for its copy."""

    name: Name


class PlaceAsked(Asked):
    """A position of a zone's pattern, on the floor of the text with this digest."""

    digest: Digest
    zone: str = Field(max_length=200)
    x_mm: float = Field(ge=-1e6, le=1e6, allow_inf_nan=False)
    y_mm: float = Field(ge=-1e6, le=1e6, allow_inf_nan=False)
    angle_deg: float = Field(ge=-360, le=360, allow_inf_nan=False)
    pieces: bool = False


class JobFile(BaseModel):
    """A job file as it stands, and what can be undone and done again."""

    name: str
    text: str
    digest: str
    number: int
    undo: str | None
    redo: str | None
    merged: bool = False


class Jobs(BaseModel):
    """The jobs in the folder, and the examples to start from."""

    folder: str
    jobs: list[str]
    changed: dict[str, float]
    """When each was changed last, seconds since 1970."""
    examples: list[str]


class Card(BaseModel):
    """What a list of jobs shows of one."""

    title: str
    client: str
    units: str
    outlines_mm: list[list[tuple[float, float]]]
    area_m2: float | None
    to_measure: int
    read: int
    laid: bool
    errors: int
    warnings: int


class Beside(BaseModel):
    """The name that a file got beside the jobs."""

    file: str


class Fault(BaseModel):
    """Why something was not done, and how to mend it."""

    code: str
    message: str
    path: list[str | int] | None = None
    before: Any = None
    now: Any = None


class Refused(BaseModel):
    """The one shape of every answer that is an error."""

    error: Fault
