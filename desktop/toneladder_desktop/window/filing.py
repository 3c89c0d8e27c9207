"""What comes onto the bench and goes into files: open, drop, paste, save, unsaved changes."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from PySide6.QtCore import QBuffer, QByteArray, QIODevice, QMimeData, QObject, Qt, Signal
from PySide6.QtGui import QImage, QImageWriter
from PySide6.QtWidgets import QMessageBox, QWidget

from toneladder.wording import say
from toneladder_desktop.bench.asked import OpenedPicture, OpenedPlate, OpenFile, Save
from toneladder_desktop.bench.bench import Bench, Lying
from toneladder_desktop.bench.opening import (
    PLATE_SUFFIX,
    ask_for_file,
    ask_where_to_save,
    file_name,
    new_plate,
    sample_picture,
    sample_plate,
)
from toneladder_desktop.bench.recent import Recent
from toneladder_desktop.bench.settings import Preferences
from toneladder_desktop.bench.stages import known_curve
from toneladder_desktop.bench.workings import Workings
from toneladder_desktop.fittings.notice import Notice

MOST_MEGAPIXELS = 400.0


class Filing(QObject):
    """Opens and saves; asks before anything is lost.

    ``saved(path)`` says that the plate is safe; ``opened()`` that another one lies open.
    """

    saved = Signal(object)
    opened = Signal()

    def __init__(
        self,
        window: QWidget,
        bench: Bench,
        workings: Workings,
        notice: Notice,
        recent: Recent,
        preferences: Preferences,
    ) -> None:
        super().__init__(window)
        self._window, self._bench, self._workings = window, bench, workings
        self._notice, self._recent, self._preferences = notice, recent, preferences
        self._then: Callable[[], object] | None = None
        self._sample: OpenFile | None = None
        self._came_from: Path | None = None
        self.saving = False
        workings.opened.connect(self._opened)
        workings.saved.connect(self._saved)
        workings.failed.connect(self._failed)

    # in

    def ask(self) -> None:
        """Let the etcher choose what to open."""
        ask_for_file(self._window, self._folder(), self.open)

    def open(self, path: Path) -> None:
        """Open a plate or a picture."""
        self._workings.open(path, path.name, MOST_MEGAPIXELS)

    def open_sample(self) -> None:
        """Open the sample plate; an installation without it leaves the bench empty."""
        path = sample_picture()
        if path is not None:
            self._sample = self._workings.open(path, path.name, MOST_MEGAPIXELS)

    def takes(self, mime: QMimeData) -> bool:
        """Whether something dropped or pasted can be opened."""
        return bool(_paths(mime)) or mime.hasImage()

    def open_from(self, mime: QMimeData) -> None:
        """Open what was dropped or pasted: the first file, or a picture without one."""
        paths = _paths(mime)
        if paths:
            self.open(paths[0])
            return
        image = mime.imageData()
        if isinstance(image, QImage) and not image.isNull():
            self._workings.open(_png(image), say("pasted picture"), MOST_MEGAPIXELS)

    # out

    def save(self, then: Callable[[], object] | None = None) -> None:
        """Save to the plate's own file, or ask for one; ``then`` is done when it is safe."""
        lying = self._bench.lying
        if lying is None:
            return
        if lying.path is None:
            self.save_as(then)
        else:
            self._save(lying.path, then)

    def save_as(self, then: Callable[[], object] | None = None) -> None:
        """Save to a file that the etcher chooses."""
        if self._bench.lying is None:
            return
        suggestion = self._folder() / file_name(self._bench.name(), PLATE_SUFFIX)
        ask_where_to_save(self._window, suggestion, lambda path: self._save(path, then))

    def when_saved(self, then: Callable[[], object]) -> None:
        """Do something when what is being saved is safe."""
        self._then = then

    def unless_unsaved(self, act: Callable[[], object]) -> None:
        """Do ``act``, which gives the open plate up; ask first if it has unsaved changes."""
        if not self._bench.unsaved:
            act()
            return
        ask_about_unsaved(self._window, self._bench.name(), lambda: self.save(act), act)

    # answers

    def _opened(self, request: OpenFile, answer: object) -> None:
        if isinstance(answer, OpenedPlate):
            file, path = answer.file, request.source
            if not isinstance(path, Path):
                return
            lying = Lying(file.plate, file.picture, path, known_curve(file))
            self.unless_unsaved(lambda: self._lay(lying))
        elif isinstance(answer, OpenedPicture):
            self._picture_opened(request, answer)

    def _picture_opened(self, request: OpenFile, answer: OpenedPicture) -> None:
        sample, self._sample = request is self._sample, None
        if isinstance(request.source, Path) and not sample:
            self._came_from = request.source.parent
        ref = answer.picture.ref
        now = self._preferences.now
        plate = sample_plate(ref) if sample else new_plate(ref, now.conditions)
        plate = plate if sample else replace(plate, rates=now.rates)
        lying = Lying(plate, answer.data, sample=sample)
        open_now = self._bench.lying
        if sample or open_now is None or open_now.sample:
            self._lay(lying)
            return
        self._notice.tell(
            say("{name} is read. What is it for?", name=request.name),
            (
                (say("A new plate"), lambda: self.unless_unsaved(lambda: self._lay(lying))),
                (say("This plate's picture"), lambda: self._change_picture(lying)),
            ),
            put_away=say("Leave it"),
        )

    def _change_picture(self, other: Lying) -> None:
        plate = self._bench.plate
        if plate is not None:
            ref = other.plate.picture
            self._bench.change_picture(
                say("Take {name} as the picture", name=ref.name),
                replace(plate, picture=ref),
                other.picture,
            )

    def _lay(self, lying: Lying) -> None:
        self._notice.put_away()
        self._bench.lay(lying)
        if lying.path is not None:
            self._recent.add(lying.path)
        self.opened.emit()

    def _save(self, path: Path, then: Callable[[], object] | None) -> None:
        self._then, self.saving = then, True
        self._workings.save(path)

    def _saved(self, request: Save) -> None:
        self.saving = False
        self._bench.now_saved(request.path, request.lying.plate)
        self._recent.add(request.path)
        self.saved.emit(request.path)
        then, self._then = self._then, None
        if then is not None and not self._bench.unsaved:
            then()

    def _failed(self, request: object, _sentence: str) -> None:
        if isinstance(request, Save):
            self._then, self.saving = None, False

    def _folder(self) -> Path:
        lying = self._bench.lying
        if lying is not None and lying.path is not None:
            return lying.path.parent
        if self._came_from is not None and self._came_from.is_dir():
            return self._came_from
        files = self._recent.files()
        return files[0].parent if files and files[0].parent.is_dir() else Path.home()


def ask_about_unsaved(
    window: QWidget, name: str, save: Callable[[], object], discard: Callable[[], object]
) -> None:
    """Save, discard, or keep working: the one question that lies over the window."""
    box = QMessageBox(window)
    box.setWindowTitle(say("Unsaved changes"))
    box.setTextFormat(Qt.TextFormat.PlainText)
    box.setText(say("“{name}” has changes that are not saved.", name=name))
    box.setInformativeText(say("Discarded changes cannot be brought back."))
    button = QMessageBox.StandardButton
    box.setStandardButtons(button.Save | button.Discard | button.Cancel)
    for which, text in (
        (button.Save, say("Save")),
        (button.Discard, say("Discard")),
        (button.Cancel, say("Keep working")),
    ):
        box.button(which).setText(text)
    box.setDefaultButton(button.Save)
    box.setEscapeButton(button.Cancel)
    box.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
    box.button(button.Save).clicked.connect(save)
    box.button(button.Discard).clicked.connect(discard)
    box.open()


def _paths(mime: QMimeData) -> list[Path]:
    return [Path(url.toLocalFile()) for url in mime.urls() if url.isLocalFile()]


def _png(image: QImage) -> bytes:
    device = QBuffer()
    device.open(QIODevice.OpenModeFlag.WriteOnly)
    QImageWriter(device, QByteArray(b"png")).write(image)
    return bytes(device.data().data())
