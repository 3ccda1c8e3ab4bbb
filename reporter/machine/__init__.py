"""The computer that the program runs on: its signals, its folder for temporary files, its room and memory, its terminal.

    interrupts  Ctrl-C and the system's requests to end
    leavings    what lies about while a run works, named so that it can be told and swept
    scratch     a folder for temporary files, and whether there is room in it
    shortage    what the computer refuses, in plain words
    outlet      standard output that a reader may close
    log         what a run did, for somebody who is to help
    fault       where a fault of the program lies, without anything private

Nothing here knows a boat, a photo or a report, and nothing imports a library.
"""
