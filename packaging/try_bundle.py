"""Does a whole job with a bundle, as somebody without Python would.

    python packaging/try_bundle.py dist/tone-ladder-0.1.0-linux-x86_64
    python packaging/try_bundle.py … --root DIR         in a bare system by debootstrap, as root
    python packaging/try_bundle.py … --screen shot.png  also the window, under Xvfb with xdotool

Nothing of the environment reaches the program, and its home is empty. Prints what each part took;
ends at the first that fails.
"""

import argparse
import os
import shutil
import subprocess
import sys
import time
from pathlib import Path

import imagecodecs
import numpy as np
import tifffile
from PIL import Image

ROOT = Path(__file__).resolve().parents[1]
SAMPLE = ROOT / "sample_images" / "breakwater.png"
READINGS = "total_bite,lightness\n0,90.1\n0:15,83\n1:00,66.8\n4:00,44\n16:00,27\n"
SHALLOW = ("webp", "jpg", "bmp", "gif")
DISPLAY = ":97"


class Trial:
    """One bundle in one place: ``/trial`` of a bare system, or a folder that is emptied first."""

    def __init__(self, bundle: Path, root: Path | None) -> None:
        self.outside = (root or Path("/tmp")) / "tone-ladder-trial"  # noqa: S108  # it is made new
        inside = Path("/tone-ladder-trial") if root else self.outside
        self.enter = ["chroot", str(root)] if root else []
        shutil.rmtree(self.outside, ignore_errors=True)
        shutil.copytree(bundle, self.outside / "program", symlinks=True)
        (self.outside / "home").mkdir()
        self.inside, self.program = inside, inside / "program" / "toneladder"

    def command(self, *words: str, **settings: str) -> list[str]:
        """The command that starts the bundle with an emptied environment."""
        home = {"HOME": str(self.inside / "home"), "LANG": "C.UTF-8", **settings}
        given = [f"{name}={value}" for name, value in home.items()]
        return [*self.enter, "/usr/bin/env", "-i", *given, str(self.program), *words]

    def do(self, what: str, *words: str) -> None:
        """Run one command of the program; say what it took, or end."""
        began, worked = time.perf_counter(), os.times()
        done = subprocess.run(self.command(*words), capture_output=True, text=True, check=False)
        took, now = time.perf_counter() - began, os.times()
        worked_s = sum(now[2:4]) - sum(worked[2:4])
        if done.returncode:
            sys.exit(f"{what}: failed ({done.returncode}).\n{done.stdout}\n{done.stderr}")
        said = done.stdout.strip().splitlines()[-1:]
        print(f"{what}: {took:.2f} s, working {worked_s:.2f}  {said}", flush=True)


def main() -> None:
    """Try what the command line names."""
    words = argparse.ArgumentParser(description=__doc__)
    words.add_argument("bundle", type=Path)
    words.add_argument("--root", type=Path)
    words.add_argument("--screen", type=Path)
    asked = words.parse_args()
    trial = Trial(asked.bundle, asked.root)
    whole_job(trial)
    if asked.screen:
        window(trial, asked.screen)


def whole_job(trial: Trial) -> None:
    """Plan, sheets, a strip and a plan on it; then every kind of picture."""
    out = trial.outside
    shutil.copy(SAMPLE, out / "drawing.png")
    (out / "readings.csv").write_text(READINGS, encoding="utf-8")
    within = {name: str(trial.inside / name) for name in ("drawing.png", "readings.csv")}
    strip, plan = str(trial.inside / "tank.strip"), str(trial.inside / "plan")
    trial.do("version", "--version")
    trial.do("plan", "plan", within["drawing.png"], "--out", plan, "--plate", "200x150mm")
    trial.do("sheets", "sheets", f"{plan}/plan.plate", "--out", str(trial.inside / "sheets"))
    fit = ["--metal", "copper", "--temperature", "20", "--out", strip]
    trial.do("strip fit", "strip", "fit", within["readings.csv"], *fit)
    trial.do("curve", "curve", strip)
    on_strip = ["--strip", strip, "--out", str(trial.inside / "on-strip")]
    trial.do("plan on strip", "plan", within["drawing.png"], *on_strip)
    for picture in pictures(out):
        words = [str(trial.inside / picture.name), "--out", str(trial.inside / picture.stem)]
        trial.do(f"plan {picture.name}", "plan", *words)
    made = sorted(path.name for path in (out / "plan").iterdir())
    print(f"plan holds {', '.join(made)}; sheets {len(list((out / 'sheets').iterdir()))} files")


def pictures(folder: Path) -> list[Path]:
    """One picture of each kind that a codec of its own reads."""
    ramp = np.linspace(0, 65535, 240, dtype=np.uint16)
    deep = np.broadcast_to(ramp[None, :, None], (180, 240, 3)).copy()
    packings = {"plain": None, "deflate": "deflate", "packbits": "packbits", "lzw": "lzw"}
    for name, packing in packings.items():
        tifffile.imwrite(
            folder / f"{name}.tif",
            deep,
            photometric="rgb",
            compression=packing,
            predictor=packing in {"deflate", "lzw"},
        )
    shallow = Image.fromarray((deep >> 8).astype(np.uint8))
    for form in SHALLOW:
        shallow.save(folder / f"{form}.{form}")
    (folder / "deep.png").write_bytes(imagecodecs.png_encode(deep))
    names = [f"{name}.tif" for name in packings] + [f"{form}.{form}" for form in SHALLOW]
    return [folder / name for name in (*names, "deep.png")]


def window(trial: Trial, screen: Path) -> None:
    """Open the window on a screen of its own, look at it, and type into it."""
    server = subprocess.Popen(["Xvfb", DISPLAY, "-screen", "0", "1366x768x24", "-nolisten", "tcp"])
    host = {**os.environ, "DISPLAY": DISPLAY}
    program = None
    try:
        time.sleep(1)
        began = time.perf_counter()
        program = subprocess.Popen(trial.command(DISPLAY=DISPLAY))
        wait_for_window(program, host)
        print(f"window: there after {time.perf_counter() - began:.2f} s")
        time.sleep(12)
        look(screen, host)
        for keys in ("plus", "plus", "alt+h"):
            subprocess.run(["xdotool", "key", keys], env=host, check=True)
            time.sleep(1)
        time.sleep(3)
        look(screen.with_stem(f"{screen.stem}-typed"), host)
        require_running(program)
    finally:
        for process in (program, server):
            if process is not None:
                process.terminate()
                process.wait()


def wait_for_window(program: "subprocess.Popen[bytes]", host: dict[str, str]) -> None:
    """Wait until something is seen on the screen."""
    find = ["xdotool", "search", "--onlyvisible", "--name", "."]
    while subprocess.run(find, env=host, capture_output=True, check=False).returncode:
        require_running(program)
        time.sleep(0.02)


def require_running(program: "subprocess.Popen[bytes]") -> None:
    """End if the program has ended."""
    if program.poll() is not None:
        sys.exit(f"window: it ended by itself ({program.returncode}).")


def look(screen: Path, host: dict[str, str]) -> None:
    """Keep what is on the screen."""
    subprocess.run(["import", "-window", "root", str(screen)], env=host, check=True)


if __name__ == "__main__":
    main()
