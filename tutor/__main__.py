"""``python -m tutor``: the program, and its commands without a window."""

import sys

from tutor.app.cli.command_line import main

sys.exit(main())
