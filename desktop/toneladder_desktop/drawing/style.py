"""Colours, type and spacing of the window: one table of each, and how Qt wears them.

Every colour has one use. The surround of prints and rungs is the same neutral grey in light and
in dark, so that tones are always judged on one ground.
"""

from dataclasses import dataclass
from enum import Enum
from functools import cache
from pathlib import Path

from PySide6.QtGui import QColor, QFont, QFontDatabase, QPalette
from PySide6.QtWidgets import QApplication, QWidget

from toneladder.lettering import Face, font_path

SURROUND = "#A9A9A9"
"""Round prints and rungs, in light and dark alike."""

ON_SURROUND = "#1B1E22"

ICON = Path(__file__).parent / "icon.png"
"""What the program's windows bear; made, with all other sizes, by `packaging/make_icons.py`."""

HAIR, TIGHT, NEAR, APART, FAR, WIDE = 1, 4, 8, 12, 16, 24
"""Steps of spacing, in pixels; ``HAIR`` is the thickness of a rule."""

CONTROL, LARGE, CORNER = 28, 36, 2
"""Height of a control, of one where work ends, and the radius of their corners, in pixels."""

CARD, LADDER, DAY = 214, 312, 128
"""Width of the card and of the ladder, height of the day, in pixels."""


@dataclass(frozen=True, slots=True)
class Colours:
    """What each colour is for.

    ``ground`` and ``sheet`` lie under everything (sheet: what is open, fields, read-outs);
    ``ink`` and ``pencil`` are first and second text; ``edge`` bounds whatever means something,
    ``rule`` only divides; ``accent`` is for the one act, links and focus, never on the surround,
    with ``on_accent`` upon it; ``tint`` is the ground of what is chosen.
    """

    ground: str
    sheet: str
    ink: str
    pencil: str
    edge: str
    rule: str
    accent: str
    on_accent: str
    tint: str


LIGHT = Colours(
    ground="#F6F5F1",
    sheet="#FFFFFC",
    ink="#1B1E22",
    pencil="#50555C",
    edge="#7F7D76",
    rule="#CFCCC4",
    accent="#17635A",
    on_accent="#FFFFFC",
    tint="#DCE9E4",
)
DARK = Colours(
    ground="#1C1E20",
    sheet="#292C2F",
    ink="#EEEBE3",
    pencil="#B8B6AF",
    edge="#8F8E88",
    rule="#414447",
    accent="#76C4B3",
    on_accent="#1C1E20",
    tint="#21423C",
)


class Type(Enum):
    """Face and size in pixels of each kind of text."""

    TEXT = (Face.SANS, 15)
    SMALL = (Face.SANS, 13)
    NOTE = (Face.SANS_ITALIC, 14)
    STRONG = (Face.SANS_BOLD, 15)
    ANSWER = (Face.SANS_BOLD, 16)
    HEAD = (Face.SANS_BOLD, 17)
    TITLE = (Face.SERIF_BOLD, 24)
    CAPTION = (Face.SERIF_ITALIC, 17)


class Scheme(Enum):
    """Light or dark, or whatever the desktop is."""

    SYSTEM = "system"
    LIGHT = "light"
    DARK = "dark"


def font(kind: Type) -> QFont:
    """The bundled letters for one kind of text, in whole pixels."""
    return letters(*kind.value)


def letters(face: Face, px: int) -> QFont:
    """The bundled letters in any size, for what is read across a room."""
    made = QFont(_family(face))
    made.setPixelSize(max(1, px))
    made.setBold(face.bold)
    made.setItalic(face.italic)
    made.setHintingPreference(QFont.HintingPreference.PreferNoHinting)
    return made


def colours_of(widget: QWidget) -> Colours:
    """The colours that ``widget`` wears now."""
    return DARK if widget.palette().color(QPalette.ColorRole.Window).lightness() < 128 else LIGHT


def colours_for(scheme: Scheme, app: QApplication) -> Colours:
    """The colours of a scheme; the desktop's own if the scheme leaves it to that."""
    if scheme is Scheme.SYSTEM:
        from PySide6.QtCore import Qt

        dark = app.styleHints().colorScheme() is Qt.ColorScheme.Dark
        return DARK if dark else LIGHT
    return DARK if scheme is Scheme.DARK else LIGHT


def wear(app: QApplication, colours: Colours) -> None:
    """Dress the whole program in ``colours`` and the bundled letters."""
    app.setStyle("fusion")
    for face in Face:
        _family(face)
    app.setFont(font(Type.TEXT))
    app.setPalette(palette_of(colours))
    app.setStyleSheet(style_sheet_of(colours))


def palette_of(colours: Colours) -> QPalette:
    """Qt's roles, filled from the table."""
    role = QPalette.ColorRole
    palette = QPalette()
    for name, colour in {
        role.Window: colours.ground,
        role.WindowText: colours.ink,
        role.Base: colours.sheet,
        role.AlternateBase: colours.ground,
        role.Text: colours.ink,
        role.Button: colours.ground,
        role.ButtonText: colours.ink,
        role.BrightText: colours.ink,
        role.PlaceholderText: colours.pencil,
        role.ToolTipBase: colours.sheet,
        role.ToolTipText: colours.ink,
        role.Highlight: colours.tint,
        role.HighlightedText: colours.ink,
        role.Accent: colours.accent,
        role.Link: colours.accent,
        role.LinkVisited: colours.accent,
        role.Light: colours.sheet,
        role.Midlight: colours.rule,
        role.Mid: colours.edge,
        role.Dark: colours.edge,
        role.Shadow: colours.edge,
    }.items():
        palette.setColor(name, QColor(colour))
    for name in (role.WindowText, role.Text, role.ButtonText, role.HighlightedText):
        palette.setColor(QPalette.ColorGroup.Disabled, name, QColor(colours.edge))
    return palette


def style_sheet_of(colours: Colours) -> str:
    """What a palette cannot say: edges, corners, heights, the look of focus."""
    inner, large = CONTROL - 2, LARGE - 2
    return f"""
QToolTip {{ background: {colours.sheet}; color: {colours.ink};
  border: 1px solid {colours.edge}; padding: {TIGHT}px; }}
QMenuBar {{ background: {colours.ground}; padding: 0 {TIGHT}px; }}
QMenuBar::item {{ padding: {TIGHT}px {NEAR}px; background: transparent; }}
QMenuBar::item:selected, QMenuBar::item:pressed {{ background: {colours.tint}; }}
QMenu {{ background: {colours.sheet}; border: 1px solid {colours.edge}; padding: {TIGHT}px 0; }}
QMenu::item {{ padding: {TIGHT}px {WIDE}px; }}
QMenu::item:selected {{ background: {colours.tint}; }}
QMenu::item:disabled {{ color: {colours.edge}; }}
QMenu::separator {{ height: 1px; background: {colours.rule}; margin: {TIGHT}px 0; }}
QPushButton {{ background: {colours.sheet}; color: {colours.ink};
  border: 1px solid {colours.edge}; border-radius: {CORNER}px;
  min-height: {inner}px; padding: 0 {APART}px; }}
QPushButton:hover, QPushButton:pressed {{ background: {colours.tint}; }}
QPushButton:checked {{ background: {colours.ink}; color: {colours.sheet}; }}
QPushButton:focus {{ border: 2px solid {colours.accent}; min-height: {inner - 2}px;
  padding: 0 {APART - 1}px; outline: none; }}
QPushButton:disabled {{ color: {colours.edge}; border-color: {colours.rule};
  background: {colours.ground}; }}
QPushButton[small="true"] {{ padding: 0; }}
QPushButton[large="true"] {{ min-height: {large}px; }}
QPushButton[large="true"]:focus {{ min-height: {large - 2}px; }}
QPushButton[act="true"] {{ background: {colours.accent}; color: {colours.on_accent};
  border-color: {colours.accent}; }}
QPushButton[act="true"]:focus {{ border: 2px solid {colours.ink}; }}
QPushButton[act="true"]:disabled {{ background: {colours.ground}; color: {colours.edge};
  border-color: {colours.rule}; }}
QPushButton[link="true"] {{ background: transparent; color: {colours.accent};
  border: 2px solid transparent; text-decoration: underline; padding: 0; min-height: 24px;
  text-align: left; }}
QPushButton[link="true"]:focus {{ border: 2px solid {colours.accent}; }}
QPushButton[link="true"][flat="true"] {{ border: none; }}
QPushButton[link="true"][here="true"] {{ color: {colours.ink}; text-decoration: none;
  font-weight: bold; }}
QPushButton[link="true"]:disabled {{ color: {colours.edge}; }}
QLineEdit, QSpinBox {{ background: {colours.sheet}; color: {colours.ink};
  border: 1px solid {colours.edge}; border-radius: {CORNER}px; min-height: {inner}px;
  padding: 0 {NEAR - 1}px; selection-background-color: {colours.tint};
  selection-color: {colours.ink}; placeholder-text-color: {colours.pencil}; }}
QLineEdit:focus, QSpinBox:focus {{ border: 2px solid {colours.accent};
  min-height: {inner - 2}px; padding: 0 {NEAR - 2}px; }}
QSpinBox::up-button, QSpinBox::down-button {{ width: 0; border: none; }}
QSpinBox QLineEdit {{ border: none; background: transparent; min-height: 0; padding: 0; }}
QLineEdit[fault="true"] {{ border: 2px solid {colours.ink}; }}
QRadioButton, QCheckBox {{ spacing: {NEAR}px; min-height: 24px; background: transparent; }}
QRadioButton::indicator {{ width: 13px; height: 13px; border-radius: 8px;
  border: 1.5px solid {colours.ink}; background: {colours.sheet}; }}
QRadioButton::indicator:checked {{ background: qradialgradient(cx:0.5, cy:0.5, radius:0.5,
  fx:0.5, fy:0.5, stop:0 {colours.ink}, stop:0.52 {colours.ink}, stop:0.6 {colours.sheet},
  stop:1 {colours.sheet}); }}
QCheckBox::indicator {{ width: 13px; height: 13px; border: 1.5px solid {colours.ink};
  background: {colours.sheet}; }}
QCheckBox::indicator:checked {{ background: {colours.ink}; }}
QRadioButton:focus, QCheckBox:focus {{ color: {colours.accent}; }}
QLabel#pencil {{ color: {colours.pencil}; }}
QLineEdit#title {{ background: transparent; border: 1px solid transparent; padding: 0 {NEAR}px;
  min-height: 34px; }}
QLineEdit#title:hover {{ border: 1px solid {colours.rule}; }}
QLineEdit#title:focus {{ background: {colours.sheet}; border: 2px solid {colours.accent};
  padding: 0 {NEAR - 1}px; min-height: 32px; }}
QWidget#notice {{ background: {colours.sheet}; border: none;
  border-bottom: 1px solid {colours.edge}; }}
QScrollArea {{ border: none; background: transparent; }}
QScrollBar:vertical {{ background: {colours.ground}; width: 12px; margin: 0; }}
QScrollBar::handle:vertical {{ background: {colours.edge}; min-height: {WIDE}px;
  border-radius: {CORNER}px; margin: 2px; }}
QScrollBar:horizontal {{ background: {colours.ground}; height: 12px; margin: 0; }}
QScrollBar::handle:horizontal {{ background: {colours.edge}; min-width: {WIDE}px;
  border-radius: {CORNER}px; margin: 2px; }}
QScrollBar::add-line, QScrollBar::sub-line {{ width: 0; height: 0; }}
QScrollBar::add-page, QScrollBar::sub-page {{ background: transparent; }}
QTableView {{ background: {colours.ground}; border: none; outline: none;
  selection-background-color: {colours.tint}; selection-color: {colours.ink}; }}
QTableView::item {{ border-bottom: 1px solid {colours.rule}; padding: 0 1px; }}
QTableView::item:selected {{ background: {colours.tint}; color: {colours.ink}; }}
QHeaderView::section {{ background: {colours.ground}; color: {colours.pencil}; border: none;
  border-bottom: 1px solid {colours.edge}; padding: {TIGHT}px; }}
QMessageBox QLabel {{ min-width: 340px; }}
"""


@cache
def _family(face: Face) -> str:
    """Name under which Qt knows the face's file, loaded once.

    Raises
    ------
    FileNotFoundError
        The face's file is missing or cannot be read.
    """
    number = QFontDatabase.addApplicationFont(str(font_path(face)))
    if number < 0:
        raise FileNotFoundError(font_path(face))
    return QFontDatabase.applicationFontFamilies(number)[0]
