"""The only room that touches the disk and git.

files        the public files of an engine folder: which there are, reading, writing
disk         one file: read without being led astray, replaced without being torn
repository   the git repository round a folder, its head and branches read as text
git_run      the one place where git is started, with its fixed environment
git_read     history, trees and texts as they were written down; what differs from the last commit
git_write    one commit of our own paths, or none at all
staging      the user's own index: what stands in it under our paths, and setting it after a commit
journal      what an interrupted commit still has to do, and doing it
lock         one writer at a time in one repository
fingerprint  the record fingerprint, which does not depend on git

Nothing is imported here: a reading command that needs no git pays nothing for it.
"""
