"""Start Setday.  Needs nothing but Python 3.11 or newer.

python3 run.py               make a private environment if there is none, start the demo house
python3 run.py --network     the same, and let the tablets of the class network in
python3 run.py -- WORDS      the same, then hand WORDS to the setday command
python3 run.py test [WORDS]  install what the tests need and run every check; WORDS go to pytest
python3 run.py lock          write the pinned requirement files anew

This file alone is written so that any old Python can read it and say which one is needed.
"""

import sys

if sys.version_info < (3, 11):
    sys.stderr.write(
        "Setday needs Python 3.11 or newer; this is Python %d.%d (%s).\n"
        "Install a newer Python and start again with it, for example: python3.11 run.py\n"
        % (sys.version_info[0], sys.version_info[1], sys.executable)
    )
    sys.exit(2)

if __name__ == "__main__":
    import os

    sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
    from start.words import main

    sys.exit(main(sys.argv[1:]))
