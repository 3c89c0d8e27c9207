"""A folder on another machine, as the system sees it: every request goes to a server of our own.

The server passes them on to a folder that lies near, as slowly as it is told, holds them back,
or is gone. Only root may mount it, on Linux, where it bears the name of such a file system.
Numbers and layouts are those of the kernel's ``include/uapi/linux/fuse.h``, protocol 7.31.
"""

import ctypes
import os
import shutil
import signal
import struct
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from errno import ENOENT, ENOSYS
from pathlib import Path

import pytest

_MOST = 1 << 20
_DETACH = 2
_UNANSWERED = (2, 36, 42)
"""Forgetting and interrupting want no answer."""


@dataclass(frozen=True, slots=True)
class FarFolder:
    """``path`` is the folder as programs see it; ``near`` what its server passes on."""

    path: Path
    near: Path
    server: "subprocess.Popen[bytes]"
    _pace: Path

    def slow(self, seconds: float) -> None:
        """Let every request from now on take so long."""
        newer = self._pace.with_suffix(".new")
        newer.write_text(str(seconds), encoding="ascii")
        newer.replace(self._pace)

    @contextmanager
    def held(self) -> Iterator[None]:
        """Nothing is answered while this lasts."""
        self.server.send_signal(signal.SIGSTOP)
        try:
            yield
        finally:
            self.server.send_signal(signal.SIGCONT)

    def gone(self) -> None:
        """The other machine is switched off."""
        self.server.kill()
        self.server.wait()


@contextmanager
def far_folder() -> Iterator[FarFolder]:
    """A folder behind a server of its own."""
    if sys.platform != "linux" or os.geteuid() != 0 or not Path("/dev/fuse").exists():
        pytest.skip("only root may mount a folder of ours, on Linux")
    room = Path(tempfile.mkdtemp(prefix="far-folder-"))
    path, near, pace = room / "far", room / "near", room / "pace"
    for folder in (path, near):
        folder.mkdir(mode=0o755)
    pace.write_text("0", encoding="ascii")
    system = ctypes.CDLL(None, use_errno=True)
    channel = os.open("/dev/fuse", os.O_RDWR)
    words = f"fd={channel},rootmode=40000,user_id=0,group_id=0,allow_other,default_permissions"
    if system.mount(b"far", str(path).encode(), b"fuse.sshfs", 0, words.encode()) != 0:
        os.close(channel)
        pytest.skip("no folder of ours can be mounted here")
    server = subprocess.Popen(
        [sys.executable, __file__, str(channel), str(near), str(pace)], pass_fds=[channel]
    )
    os.close(channel)
    try:
        yield FarFolder(path, near, server, pace)
    finally:
        server.kill()
        server.wait()
        system.umount2(str(path).encode(), _DETACH)
        shutil.rmtree(room, ignore_errors=True)


class Server:
    """Passes what is asked on to a folder that lies near."""

    def __init__(self, channel: int, near: Path, pace: Path) -> None:
        self._channel, self._pace = channel, pace
        self._paths = {1: near}
        self._acts = {
            1: self._look_up, 3: self._about, 4: self._change, 9: self._make_folder,
            10: self._unlink, 11: self._remove_folder, 12: self._rename, 14: self._open,
            15: self._read, 16: self._write, 17: self._room, 18: self._close, 20: self._settle,
            25: self._nothing, 26: self._begin, 27: self._nothing_open, 28: self._list,
            29: self._nothing, 30: self._nothing, 35: self._create, 45: self._rename_anew,
        }  # fmt: skip

    def serve(self) -> None:
        """Answer until the folder is taken away."""
        while True:
            asked = os.read(self._channel, _MOST + 4096)
            _, code, unique, node = struct.unpack_from("<IIQQ", asked)
            if code in _UNANSWERED:
                continue
            time.sleep(float(self._pace.read_text(encoding="ascii")))
            answer, error = b"", 0
            try:
                answer = self._acts[code](node, asked[40:])
            except KeyError:
                error = -ENOSYS
            except OSError as fault:
                error = -(fault.errno or ENOENT)
            with suppress(FileNotFoundError):  # nobody waits for it any more
                os.write(
                    self._channel, struct.pack("<IiQ", 16 + len(answer), error, unique) + answer
                )

    def _begin(self, _node: int, body: bytes) -> bytes:
        ahead = struct.unpack_from("<I", body, 8)[0]
        return struct.pack("<4I2H2I2HI28x", 7, 31, ahead, 0, 12, 9, 1 << 17, 1, 0, 0, 0)

    def _look_up(self, node: int, body: bytes) -> bytes:
        return self._entry(self._below(node, body))

    def _about(self, node: int, _body: bytes) -> bytes:
        return struct.pack("<QII", 0, 0, 0) + _attributes(self._paths[node])

    def _change(self, node: int, body: bytes) -> bytes:
        path = self._paths[node]
        valid, size = struct.unpack_from("<I4xQQ", body)[0], struct.unpack_from("<Q", body, 16)[0]
        mode, owner, group = struct.unpack_from("<I4xII", body, 68)
        if valid & 1:
            path.chmod(mode & 0o7777)
        if valid & 6:
            os.chown(path, owner if valid & 2 else -1, group if valid & 4 else -1)
        if valid & 8:
            os.truncate(path, size)
        return self._about(node, body)

    def _make_folder(self, node: int, body: bytes) -> bytes:
        path = self._below(node, body[8:])
        path.mkdir(struct.unpack_from("<I", body)[0])
        return self._entry(path)

    def _unlink(self, node: int, body: bytes) -> bytes:
        self._below(node, body).unlink()
        return b""

    def _remove_folder(self, node: int, body: bytes) -> bytes:
        self._below(node, body).rmdir()
        return b""

    def _rename(self, node: int, body: bytes, names: int = 8) -> bytes:
        older, newer = body[names:].split(b"\0")[:2]
        there = struct.unpack_from("<Q", body)[0]
        source, target = self._below(node, older), self._below(there, newer)
        source.rename(target)
        for known, path in self._paths.items():
            if path.is_relative_to(source):
                self._paths[known] = target / path.relative_to(source)
        return b""

    def _rename_anew(self, node: int, body: bytes) -> bytes:
        return self._rename(node, body, names=16)

    def _open(self, node: int, body: bytes) -> bytes:
        flags = struct.unpack_from("<I", body)[0] & ~(os.O_CREAT | os.O_EXCL)
        return struct.pack("<QII", os.open(self._paths[node], flags), 0, 0)

    def _create(self, node: int, body: bytes) -> bytes:
        flags, mode = struct.unpack_from("<II", body)
        path = self._below(node, body[16:])
        handle = os.open(path, flags, mode & 0o7777)
        return self._entry(path) + struct.pack("<QII", handle, 0, 0)

    def _read(self, _node: int, body: bytes) -> bytes:
        handle, offset, size = struct.unpack_from("<QQI", body)
        return os.pread(handle, size, offset)

    def _write(self, _node: int, body: bytes) -> bytes:
        handle, offset, size = struct.unpack_from("<QQI", body)
        return struct.pack("<II", os.pwrite(handle, body[40 : 40 + size], offset), 0)

    def _room(self, _node: int, _body: bytes) -> bytes:
        return struct.pack(
            "<5Q4I24x", 1 << 20, 1 << 20, 1 << 20, 1 << 20, 1 << 20, 4096, 255, 4096, 0
        )

    def _close(self, _node: int, body: bytes) -> bytes:
        os.close(struct.unpack_from("<Q", body)[0])
        return b""

    def _settle(self, _node: int, body: bytes) -> bytes:
        os.fsync(struct.unpack_from("<Q", body)[0])
        return b""

    def _nothing(self, _node: int, _body: bytes) -> bytes:
        return b""

    def _nothing_open(self, _node: int, _body: bytes) -> bytes:
        return bytes(16)

    def _list(self, node: int, body: bytes) -> bytes:
        offset, size = struct.unpack_from("<8xQI", body)
        told = b""
        for at, path in list(enumerate(sorted(self._paths[node].iterdir()), start=1))[offset:]:
            letters = os.fsencode(path.name)
            row = struct.pack("<QQII", at, at, len(letters), 0) + letters
            row += bytes(-len(row) % 8)
            if len(told) + len(row) > size:
                break
            told += row
        return told

    def _below(self, node: int, name: bytes) -> Path:
        return self._paths[node] / os.fsdecode(name.split(b"\0")[0])

    def _entry(self, path: Path) -> bytes:
        about = _attributes(path)
        node = next((known for known, own in self._paths.items() if own == path), 0)
        node = node or 1 + max(self._paths)
        self._paths[node] = path
        return struct.pack("<4Q2I", node, 0, 0, 0, 0, 0) + about


def _attributes(path: Path) -> bytes:
    about = path.lstat()
    times = (about.st_atime_ns, about.st_mtime_ns, about.st_ctime_ns)
    seconds, rest = [t // 10**9 for t in times], [t % 10**9 for t in times]
    who = (about.st_mode, about.st_nlink, about.st_uid, about.st_gid, 0, 4096, 0)
    return struct.pack(
        "<6Q10I", about.st_ino, about.st_size, about.st_blocks, *seconds, *rest, *who
    )


if __name__ == "__main__":
    with suppress(OSError):
        Server(int(sys.argv[1]), Path(sys.argv[2]), Path(sys.argv[3])).serve()
