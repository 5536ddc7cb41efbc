"""What drawers carry, on pages: what is asked, the section under a sheet, its drawings."""
