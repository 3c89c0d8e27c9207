"""Which places are far away, from what Linux says of its mounts."""

from pathlib import Path

import pytest

from toneladder.book import network
from toneladder.book.network import kind_of_place, on_a_network

# lines in the form of proc(5), /proc/pid/mountinfo
MOUNTS = """\
22 1 8:1 / / rw,relatime shared:1 - ext4 /dev/sda1 rw
40 22 0:35 / /home rw shared:2 master:1 - nfs4 server:/home rw,vers=4.2
41 40 8:3 / /home/local rw - xfs /dev/sda3 rw
42 22 0:50 / /media/the\\040studio rw - cifs //server/studio rw
43 22 0:51 / /mnt/keys rw - fuse.sshfs far: rw
"""


@pytest.mark.parametrize(
    ("place", "kind"),
    [
        ("/etc/x", "ext4"),
        ("/home/ada/book", "nfs4"),
        ("/homeless/book", "ext4"),
        ("/home/local/book", "xfs"),
        ("/media/the studio/book", "cifs"),
        ("/mnt/keys/book", "fuse.sshfs"),
    ],
)
def test_the_nearest_mount_says_what_a_place_is(place: str, kind: str) -> None:
    assert kind_of_place(Path(place), MOUNTS) == kind


def test_a_network_home_is_far_and_a_disk_is_near(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    listing = tmp_path / "mountinfo"
    listing.write_text(f"22 1 8:1 / / rw - ext4 d rw\n23 22 0:9 / {tmp_path}/far rw - nfs4 s rw\n")
    monkeypatch.setattr(network, "_MOUNTS", listing)
    assert on_a_network(tmp_path / "far" / "book")
    assert not on_a_network(tmp_path / "book")
    monkeypatch.setattr(network, "_MOUNTS", tmp_path / "none")
    assert not on_a_network(tmp_path / "far" / "book")
