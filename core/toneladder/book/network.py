"""Whether a file lies on another machine, where programs cannot share memory over it."""

import os
from pathlib import Path

_MOUNTS = Path("/proc/self/mountinfo")
_FAR = frozenset(
    (
        *("nfs", "nfs4", "cifs", "smb3", "smbfs", "afs", "9p", "ceph", "glusterfs", "lustre"),
        *("davfs", "fuse.sshfs", "fuse.glusterfs", "fuse.davfs2", "fuse.rclone"),
        *("vboxsf", "virtiofs"),
    )
)


def on_a_network(path: Path) -> bool:
    """Whether ``path`` lies on a network file system, as far as the system tells."""
    return seems_on_a_network(path.resolve())


def seems_on_a_network(place: Path) -> bool:
    """The same by the name alone, no link followed: the other machine itself is not asked."""
    place = place.absolute()
    if os.name == "nt":
        return str(place).startswith("\\\\")
    try:
        mounts = _MOUNTS.read_text(encoding="utf-8", errors="surrogateescape")
    except OSError:
        return False
    return kind_of_place(place, mounts) in _FAR


def kind_of_place(place: Path, mounts: str) -> str:
    """The kind of file system at ``place``, from the text of Linux's ``mountinfo``; or empty."""
    found = "", ""
    for line in mounts.splitlines():
        head, _, tail = line.partition(" - ")
        columns = head.split()
        if len(columns) > 4 and tail:
            root = _unquoted(columns[4])
            if place.is_relative_to(root) and len(root) >= len(found[0]):
                found = root, tail.split()[0]
    return found[1]


def _unquoted(root: str) -> str:
    for code, sign in (("\\040", " "), ("\\011", "\t"), ("\\012", "\n"), ("\\134", "\\")):
        root = root.replace(code, sign)
    return root
