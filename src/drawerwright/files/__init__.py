"""Job files, read and written."""

from drawerwright.files.jobs import job_from_mapping, job_from_source, read_job
from drawerwright.files.template import job_template
from drawerwright.files.write_toml import write_job_toml

__all__ = ["job_from_mapping", "job_from_source", "job_template", "read_job", "write_job_toml"]
