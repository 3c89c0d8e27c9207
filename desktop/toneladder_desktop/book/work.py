"""What is done with the studio book beside the window: each request opens it, and lets go of it."""

from collections.abc import Callable, Iterator
from dataclasses import replace
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any

from toneladder.book.opening import Book, open_book
from toneladder.book.values import KeptBath, KeptPlate
from toneladder.errors import BookError, DamagedBookError, RefusedPairError
from toneladder.wording import say
from toneladder_desktop.bench.background import Tell
from toneladder_desktop.book import asked
from toneladder_desktop.book.pictures import PICTURE_PX, as_png, from_png, small
from toneladder_desktop.book.telling import read_record


class BookWork:
    """Answers what is asked of the book at one place, on the background's thread.

    To look into a book that was never begun does not begin it.
    """

    def __init__(self, path: Path) -> None:
        self._path = path

    def work(self, request: object, _tell: Tell) -> Iterator[object]:
        """Answer one request; a damaged book is an answer too."""
        try:
            yield self._answer(request)
        except DamagedBookError as fault:
            yield asked.Damaged(str(fault))

    def _answer(self, request: object) -> object:
        if isinstance(request, asked.SetAside):
            return _set_aside(self._path, request.today)
        if isinstance(request, asked.CopyOnceADay):
            return _copy_once_a_day(self._path, request.today)
        if not self._path.exists():
            if isinstance(request, asked.ListPlates):
                return asked.Plates((), more=False)
            if isinstance(request, asked.ListBaths):
                return asked.Baths(())
        with open_book(self._path) as book:
            return _ACTS[type(request)](book, request)


def copy_of(path: Path) -> Path:
    """Where the copy of a book lies: beside it."""
    return path.with_name(say("{name} copy", name=path.stem) + path.suffix)


def _list_plates(book: Book, request: asked.ListPlates) -> asked.Plates:
    from toneladder.book.plates import list_plates

    found = list_plates(book, request.words, most=request.most + 1)
    lines = tuple(_plate_line(book, kept) for kept in found[: request.most])
    return asked.Plates(lines, more=len(found) > request.most)


def _plate_line(book: Book, kept: KeptPlate) -> asked.PlateLine:
    from toneladder.book.plates import thumbnail_of

    picture = from_png(thumbnail_of(book, kept.plate.identity))
    return asked.PlateLine(kept, picture, there=Path(kept.plate.path).is_file())


def _list_baths(book: Book, _request: asked.ListBaths) -> asked.Baths:
    from toneladder.book.baths import list_baths

    return asked.Baths(tuple(_bath_line(book, kept) for kept in list_baths(book)))


def _bath_line(book: Book, kept: KeptBath) -> asked.BathLine:
    from toneladder.book.baths import share_of_capacity, use_of
    from toneladder.book.strips import list_strips

    use = use_of(book, kept.id)
    share = share_of_capacity(kept.bath, use.metal_g) if use.metal_g else None
    return asked.BathLine(kept, use, share, len(list_strips(book, kept.id)))


def _list_strips(book: Book, request: asked.ListStrips) -> asked.Strips:
    from toneladder.book.strips import list_strips

    return asked.Strips(request.bath_id, list_strips(book, request.bath_id))


def _keep_plate(book: Book, request: asked.KeepPlate) -> asked.Changed:
    from toneladder.book.plates import keep_plate
    from toneladder_desktop.bench.glimpse import glimpse

    picture = small(glimpse(Path(request.entry.path)), PICTURE_PX)
    keep_plate(book, request.entry, as_png(picture))
    _note_bitten(book, request)
    return asked.Changed()


def _note_bitten(book: Book, request: asked.KeepPlate) -> None:
    """A plate that was in its bath counts as bitten there, once."""
    from toneladder.book.baths import bath_called, note_use
    from toneladder.book.record import record_of
    from toneladder.book.values import Bitten, Use

    entry = request.entry
    kept = bath_called(book, entry.bath) if entry.bath else None
    stays = record_of(book, entry.identity).stays
    bitten = [stay for stay in stays if any(bite.given_s is not None for bite in stay.bites)]
    if kept is None or not bitten:
        return
    own = (request.conditions.metal, request.conditions.mordant)
    if own == (kept.bath.metal, kept.bath.mordant):
        day = datetime.fromtimestamp(bitten[-1].begun_utc_s, UTC).astimezone().date()
        note_use(book, kept.id, request.conditions, Use(Bitten.PLATE, entry.identity, str(day)))


def _keep_proof(book: Book, request: asked.KeepProof) -> asked.Changed:
    """Of all proofs of a plate the one that missed least is its best."""
    from toneladder.book.prints import choose_best, keep_proof, proofs_of

    keep_proof(book, request.identity, request.proof)
    best = min(proofs_of(book, request.identity), key=lambda kept: kept.proof.miss)
    choose_best(book, best.id)
    return asked.Changed()


def _forget_plate(book: Book, request: asked.ForgetPlate) -> asked.Changed:
    from toneladder.book.plates import forget_plate

    forget_plate(book, request.identity)
    return asked.Changed(say("The plate is out of the list. Its own file is as it was."))


def _keep_bath(book: Book, request: asked.KeepBath) -> asked.Changed:
    from toneladder.book.baths import begin_bath, change_bath

    bath, number = request.bath, request.bath_id
    if number is None:
        number = begin_bath(book, bath)
        sentence = say("The bath “{name}” is in the studio book.", name=bath.name)
    else:
        change_bath(book, number, bath)
        sentence = say("The bath “{name}” is changed.", name=bath.name)
    return asked.Changed(sentence, KeptBath(number, bath))


def _retire_bath(book: Book, request: asked.RetireBath) -> asked.Changed:
    from toneladder.book.baths import retire_bath

    retire_bath(book, request.bath_id, request.today)
    return asked.Changed(say("The bath is retired. Its strips stay in the book."))


def _give_bath(book: Book, request: asked.GiveBath) -> asked.Changed:
    from toneladder.book.giving import give_bath, write_bath

    write_bath(request.path, give_bath(book, request.bath_id))
    return asked.Changed(
        say("The bath with its strips is in {name}, ready to give.", name=request.path.name)
    )


def _take_in(book: Book, request: asked.TakeIn) -> asked.Changed | asked.NameTaken:
    from toneladder.book.baths import bath_called
    from toneladder.book.giving import read_bath, take_in, what_was_done

    given = read_bath(request.path)
    name = request.name or given.bath.name
    try:
        taken = take_in(book, given, name=name)
    except (BookError, RefusedPairError) as refused:
        if bath_called(book, name) is None:
            raise
        return asked.NameTaken(str(refused), request.path, _free_name(book, name))
    return asked.Changed(what_was_done(taken), bath_called(book, taken.name))


def _free_name(book: Book, name: str) -> str:
    from toneladder.book.baths import bath_called

    number = 2
    while bath_called(book, f"{name} {number}") is not None:
        number += 1
    return f"{name} {number}"


def _fetch_strip(book: Book, request: asked.FetchStrip) -> asked.Fetched:
    from toneladder.book.baths import kept_bath
    from toneladder.book.strips import read_kept

    with book.reading() as connection:
        bath = kept_bath(connection, request.bath_id).bath
        strip = read_kept(connection, request.strip_id)
    return asked.Fetched(bath, replace(strip, bath=bath.name))


def _keep_strip(book: Book, request: asked.KeepStrip) -> asked.Changed:
    from toneladder.book.baths import bath_called, note_use
    from toneladder.book.strips import fingerprint, keep_strip
    from toneladder.book.values import Bitten, Use

    kept = bath_called(book, request.bath)
    if kept is None:
        return asked.Changed()
    keep_strip(book, kept.id, request.strip)
    use = Use(Bitten.STRIP, fingerprint(request.strip), request.strip.bitten_on)
    note_use(book, kept.id, request.strip.conditions, use)
    return asked.Changed(bath=kept)


def _keep_pull(book: Book, request: asked.KeepPull) -> asked.Changed:
    from toneladder.book.prints import change_pull, keep_pull

    if request.pull_id is None:
        keep_pull(book, request.identity, request.pull)
        return asked.Changed(say("The print is noted."))
    change_pull(book, request.pull_id, request.pull)
    return asked.Changed(say("The print is changed."))


def _remove_pull(book: Book, request: asked.RemovePull) -> asked.Changed:
    from toneladder.book.prints import remove_pull

    remove_pull(book, request.pull_id)
    return asked.Changed(say("The print is out of the book."))


def _take_back_use(book: Book, request: asked.TakeBackUse) -> asked.Changed:
    from toneladder.book.stay_use import take_back

    take_back(book, request.stay)
    return asked.Changed(say("The bath's use is as it was before this stay at the tank."))


def _set_aside(path: Path, today: str) -> asked.Changed:
    from toneladder.book.keeping import set_aside

    aside = set_aside(path, today)
    with open_book(path):
        pass
    return asked.Changed(
        say("A fresh studio book is begun. The damaged one lies in {name}.", name=aside.name)
    )


def _copy_once_a_day(path: Path, today: str) -> asked.Changed:
    """The copy of yesterday is given up only for one of a sound book."""
    from toneladder.book.keeping import copy_book, require_sound

    to = copy_of(path)
    if path.is_file() and not (to.is_file() and _day(to) == today):
        with open_book(path) as book, book.reading() as connection:
            require_sound(path, connection)
        copy_book(path, to)
    return asked.Changed()


def _day(path: Path) -> str:
    return date.fromtimestamp(path.stat().st_mtime).isoformat()  # noqa: DTZ012 - the day here


_ACTS: dict[type, Callable[[Book, Any], object]] = {
    asked.ListPlates: _list_plates,
    asked.ListBaths: _list_baths,
    asked.ListStrips: _list_strips,
    asked.KeepPlate: _keep_plate,
    asked.KeepProof: _keep_proof,
    asked.ForgetPlate: _forget_plate,
    asked.KeepBath: _keep_bath,
    asked.RetireBath: _retire_bath,
    asked.GiveBath: _give_bath,
    asked.TakeIn: _take_in,
    asked.FetchStrip: _fetch_strip,
    asked.KeepStrip: _keep_strip,
    asked.ReadRecord: read_record,
    asked.KeepPull: _keep_pull,
    asked.RemovePull: _remove_pull,
    asked.TakeBackUse: _take_back_use,
}
