"""Job files, read: every fault of a file is reported together."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any, Final

from pydantic import ValidationError

from drawerwright.errors import Fault, InputError, Problem
from drawerwright.files.defaults import merged
from drawerwright.files.grid import Progress
from drawerwright.files.job_faults import JobFaults
from drawerwright.files.job_materials import KnownMaterials, with_thicknesses
from drawerwright.files.job_source import JobSource
from drawerwright.files.read_otherwise import remarks_on_job
from drawerwright.files.remarks import FileRemark
from drawerwright.files.table_job import Refused
from drawerwright.files.text import JOB_INSTEAD, is_folder
from drawerwright.files.toml_text import read_toml
from drawerwright.model.faults import problems_of
from drawerwright.model.job import Drawer, Job
from drawerwright.model.job_rules import frame_missing, job_problems
from drawerwright.model.spelling import nearest
from drawerwright.units import show_value

JOB_KEYS: Final = ("title", "units", "defaults", "cabinet", "drawer")


class _Mapping:
    """A job given by keys, without a file: places are named by what holds them."""

    refused: tuple[Refused, ...] = ()
    remarks: tuple[FileRemark, ...] = ()

    def __init__(self, values: Mapping[str, Any], name: str) -> None:
        self.values = values
        self.name = name

    def place(self, loc: Sequence[str | int]) -> tuple[int, str]:
        return 0, self.name


@dataclass(frozen=True)
class JobFile:
    """A job, the file's keys with their places, and what its reader remarked on the file."""

    job: Job
    source: JobSource = field(repr=False, compare=False)
    remarks: tuple[FileRemark, ...] = ()

    def where(self, *loc: str | int) -> str:
        """Where a key of the job stands, in words: "job.toml:12 drawer A slide"."""
        values = self.source.values
        return JobFaults(self.source, values.get("defaults", {}), values["drawer"]).where(loc)[2]


def _read_csv(path: Path, progress: Progress | None) -> JobSource:
    from drawerwright.files.job_sources import read_csv_job

    return read_csv_job(path, progress)


def _read_xlsx(path: Path, progress: Progress | None) -> JobSource:
    from drawerwright.files.job_sources import read_xlsx_job

    return read_xlsx_job(path, progress)


SOURCES: Final[dict[str, Callable[[Path, Progress | None], JobSource]]] = {
    ".toml": lambda path, _: read_toml(path),
    ".csv": _read_csv,
    ".xlsx": _read_xlsx,
}
"""Reader of a job file by the ending of its name."""

_OTHERS: Final = {
    ".xlsm": "may hold macros, which are not wanted here",
    ".xls": "is the ending of workbooks of the old kind",
    ".xlsb": "is the ending of binary workbooks",
    ".ods": "is the ending of another kind of spreadsheet",
    ".tsv": "is another name for CSV with tabs, which is read as .csv",
    ".txt": "says nothing of what is in the file",
}


def read_job(
    path: Path,
    *,
    presets: Collection[str] | None = None,
    materials: KnownMaterials | None = None,
    progress: Progress | None = None,
) -> Job:
    """Read a job file. `presets`: ids of the contents presets that are known; None: any passes.

    `materials`: what a name such as "1/2 ply" stands for; None: the shipped ones. Raises InputError with all
    faults of the file, in its order.
    """
    return read_job_file(path, presets=presets, materials=materials, progress=progress).job


def read_job_file(
    path: Path,
    *,
    presets: Collection[str] | None = None,
    materials: KnownMaterials | None = None,
    progress: Progress | None = None,
) -> JobFile:
    """Read a job file (.toml, .csv or .xlsx) as `read_job` does, with the reader's remarks on it.

    `progress` is told how many rows of a table are read, and how many there are.
    """
    if is_folder(path):
        raise InputError(
            [Fault(path.name or str(path), "", "is a folder: a job file is wanted", _inside(path))]
        )
    ending = path.suffix.lower()
    read = SOURCES.get(ending)
    if read is None:
        endings = ", ".join(SOURCES)
        says = f'has the ending "{path.suffix}": a job file ends in {endings}'
        if ending in _OTHERS:
            says = f"{ending} {_OTHERS[ending]}: a job file ends in {endings}"
        table = ending in _OTHERS and ending not in (".tsv", ".txt")
        try_ = f"{path.stem or 'job'}{'.xlsx' if table else '.csv' if ending in _OTHERS else '.toml'}"
        raise InputError([Fault(path.name or str(path), "", says, try_)])
    source = read(path, progress)
    job = job_from_source(source, presets=presets, materials=materials)
    file = JobFile(job, source, tuple(source.remarks))
    return replace(file, remarks=(*file.remarks, *remarks_on_job(job, source.values, file.where)))


def _inside(folder: Path) -> str:
    """The only file of a folder that may be a job; of several nobody knows which."""
    try:
        names = sorted(
            one.name for one in folder.iterdir() if one.suffix.lower() in SOURCES and one.is_file()
        )
    except OSError:
        names = []
    if not names:
        return JOB_INSTEAD
    return f"{folder.name}/{names[0]}" if len(names) == 1 else f"one of the {len(names)} files in it"


def job_from_mapping(
    values: object,
    *,
    where: str = "job",
    presets: Collection[str] | None = None,
    materials: KnownMaterials | None = None,
) -> Job:
    """A job from a mapping with the keys of a job file. Raises InputError with all its faults."""
    if not isinstance(values, Mapping):
        fault = Fault(where, show_value(values), "is not a table of keys", ", ".join(JOB_KEYS))
        raise InputError([fault])
    return job_from_source(_Mapping(values, where), presets=presets, materials=materials)


def job_from_source(
    source: JobSource,
    *,
    presets: Collection[str] | None = None,
    materials: KnownMaterials | None = None,
) -> Job:
    """A job from any kind of file. Raises InputError with all its faults, in the file's order."""
    values = source.values
    problems = _shape_problems(values)
    broken = {problem.loc[0] for problem in problems if len(problem.loc) == 1}
    defaults = values.get("defaults", {}) if "defaults" not in broken else {}
    drawers = values.get("drawer", []) if "drawer" not in broken else []
    cabinets = values.get("cabinet", []) if "cabinet" not in broken else []
    over_defaults = [merged(defaults, one) if isinstance(one, Mapping) else one for one in drawers]
    whole, misnamed = _with_materials(over_defaults, materials or _shipped_materials())
    told = {
        "title": values.get("title", ""),
        "units": values.get("units", "mm"),
        "cabinet": cabinets,
        "drawer": whole,
    }
    context: dict[str, Any] = {"bare_unit": "in" if told["units"] == "in" else "mm"}
    if presets is not None:
        context["presets"] = presets
    try:
        job = Job.model_validate(told, context=context)
    except ValidationError as error:
        found = problems_of(error, Job)
        problems += found + _between_keys(whole, found, context) + _between_drawers(cabinets, whole)
    else:
        if not problems and not misnamed and not source.refused:
            return job
    if "drawer" in broken:  # told already what is wrong with it
        problems = [one for one in problems if one.loc != ("drawer",) or one.value]
    raise InputError(JobFaults(source, defaults, drawers).listed(misnamed, problems))


def _shipped_materials() -> KnownMaterials:
    from drawerwright.catalogue.materials import shipped_materials

    return shipped_materials()


def _with_materials(drawers: Sequence[Any], known: KnownMaterials) -> tuple[list[Any], list[Problem]]:
    """Drawers with a thickness for every material named, and the names that stand for none."""
    whole: list[Any] = []
    problems: list[Problem] = []
    for at, drawer in enumerate(drawers):
        if not isinstance(drawer, Mapping):
            whole.append(drawer)
            continue
        named, found = with_thicknesses(drawer, known)
        whole.append(named)
        problems += [replace(problem, loc=("drawer", at, *problem.loc)) for problem in found]
    return whole, problems


def _shape_problems(values: Mapping[str, Any]) -> list[Problem]:
    """Keys that a job does not have, and keys that hold the wrong kind of thing."""
    problems: list[Problem] = []
    for key, value in values.items():
        if key not in JOB_KEYS:
            says = f'is not a known key: the nearest is "{nearest(str(key), JOB_KEYS)}"'
            problems.append(Problem((str(key),), show_value(value), says, ", ".join(JOB_KEYS)))
        elif key in ("cabinet", "drawer") and not isinstance(value, (list, tuple)):
            says = f"is not a list of {key}s: write [[{key}]]"
            problems.append(Problem((key,), show_value(value), says, f"[[{key}]]"))
        elif key == "defaults" and not isinstance(value, Mapping):
            problems.append(Problem((key,), show_value(value), "is not a table", "[defaults]"))
        elif key == "defaults" and "id" in value:
            says = "is each drawer's own: it has no default"
            problems.append(Problem((key, "id"), show_value(value["id"]), says, "id in each [[drawer]]"))
    return problems


def _between_keys(
    drawers: Sequence[Any], found: Sequence[Problem], context: Mapping[str, Any]
) -> list[Problem]:
    """What is wrong between the keys of a drawer, found by looking again without those that do not read.

    The rules between keys run only once every key reads.
    """
    broken: dict[int, set[str | int]] = {}
    for problem in found:
        if problem.loc[0] == "drawer" and len(problem.loc) > 2 and isinstance(problem.loc[1], int):
            broken.setdefault(problem.loc[1], set()).add(problem.loc[2])
    problems: list[Problem] = []
    for position, keys in broken.items():
        drawer = drawers[position]
        if drawer.get("construction") == "face-frame" and "frame" not in drawer:
            missing = frame_missing()
            problems.append(replace(missing, loc=("drawer", position, *missing.loc)))
        without = keys | {"frame"} if "construction" in keys else keys
        opening = drawer.get("opening")
        if "front" in keys and isinstance(opening, Mapping) and "height" not in opening:
            # The opening's height may follow from the front's.
            without = without | {"opening"}
        try:
            Drawer.model_validate({k: v for k, v in drawer.items() if k not in without}, context=context)
        except ValidationError as error:
            problems += [
                replace(problem, loc=("drawer", position, *problem.loc))
                for problem in problems_of(error, Drawer)
                if problem.loc[0] not in without
            ]
    return problems


def _between_drawers(cabinets: Sequence[Any], drawers: Sequence[Any]) -> list[Problem]:
    """What is wrong between drawers, found from the raw values."""
    names = [_name(one, "id") for one in cabinets]
    rows = [(_name(one, "id"), _name(one, "cabinet"), _row(one)) for one in drawers]
    return job_problems(names, rows)


def _name(entry: Any, key: str) -> str | None:
    name = entry.get(key) if isinstance(entry, Mapping) else None
    if isinstance(name, int) and not isinstance(name, bool):
        name = str(name)
    return name.strip() if isinstance(name, str) else None


def _row(entry: Any) -> int | None:
    row = entry.get("row") if isinstance(entry, Mapping) else None
    return row if isinstance(row, int) and not isinstance(row, bool) else None
