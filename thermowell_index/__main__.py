"""`python -m thermowell_index` is the same as the command."""

import sys

from thermowell_index.cli import main

sys.exit(main())
