"""The only room that touches the disk and git.

files        the public files of an engine folder: which there are, reading, writing
disk         one file: read without being led astray, replaced without being torn
repository   the git repository round a folder, its head and branches read as text
git_run      the one place where git is started, with its fixed environment
git_read     history, trees and texts as they were written down; what differs from the last commit
earlier      what the record was: its files as a commit has them
git_write    one commit of our own paths, or none at all
staging      the user's own index: what stands in it under our paths, and setting it after a commit
journal      what an interrupted commit still has to do, and doing it
private      private/, a repository of its own
identity     who commits, and whether the repository is his to write in
introduce    giving a repository of our own making its own name
lock         one writer at a time in one repository
shipped      the program's own files
fingerprint  the record fingerprint, which does not depend on git

Nothing is imported here: a reading command that needs no git pays nothing for it.
"""
