"""`python -m reporter` is refused: it would put the current folder, which may be a job folder, on the import path.

Nothing but `sys` is imported before that is known, `__future__` neither: the folder may hold a file of that name.
"""

import sys

if not sys.flags.safe_path:
    sys.stderr.write(
        "Use the command 'gudgeon' (or python -P -m reporter): plain 'python -m' would run code from this folder.\n"
    )
    sys.exit(2)

from reporter.entry import main

main()
