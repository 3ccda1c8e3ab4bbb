"""The desk: a job folder in a browser page, served to this computer alone unless asked otherwise.

It stands beside the command line and calls the same six steps. It writes nothing but the files that a person could write
by hand, and those only through `editing`; photos are opened only by the door. Every answer is made of what the folder
holds at that moment.

    serving    the port, the address with its key, the server
    guards     who may ask what
    keys       keys, codes, who is connected
    store      one open job: its version, its edits
    standing   what a folder says just now, graded and in words
    views      the job, a part, a form, the sheet, as JSON
    photos     taking photos in, upright copies
    building   the report, in a process of its own
"""
