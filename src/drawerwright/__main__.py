"""`python -m drawerwright`: the same as the console script."""

from __future__ import annotations

from drawerwright.cli.main import main

if __name__ == "__main__":
    main()
