"""Job files, read and written."""

from typing import TYPE_CHECKING, Any

from drawerwright.files.jobs import JobFile, job_from_mapping, job_from_source, read_job, read_job_file
from drawerwright.files.remarks import FileRemark
from drawerwright.files.template import job_template
from drawerwright.files.write_toml import write_job_toml

if TYPE_CHECKING:
    from drawerwright.files.table_templates import job_template_csv, job_template_xlsx
    from drawerwright.files.write_csv import write_job_csv
    from drawerwright.files.write_xlsx import write_job_xlsx

__all__ = [
    "FileRemark",
    "JobFile",
    "job_from_mapping",
    "job_from_source",
    "job_template",
    "job_template_csv",
    "job_template_xlsx",
    "read_job",
    "read_job_file",
    "write_job_csv",
    "write_job_toml",
    "write_job_xlsx",
]

_LATER = {
    "job_template_csv": "table_templates",
    "job_template_xlsx": "table_templates",
    "write_job_csv": "write_csv",
    "write_job_xlsx": "write_xlsx",
}
"""What pulls in the writer of workbooks, which most commands do without."""


def __getattr__(name: str) -> Any:
    if name not in _LATER:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    from importlib import import_module

    return getattr(import_module(f"{__name__}.{_LATER[name]}"), name)
