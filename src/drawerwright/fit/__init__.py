"""Opening and slide family in, fitted drawer out: choose, size, bore, mount, check."""

from drawerwright.fit.document import fit_document
from drawerwright.fit.job import fit_job

__all__ = ["fit_document", "fit_job"]
