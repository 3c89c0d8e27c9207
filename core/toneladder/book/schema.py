"""The tables of the studio book, as steps: each brings the book from one version to the next.

A step that is in use is never altered; what is to be different becomes a further step.
"""

APPLICATION = 0x746F6E65
"""Marks a database as a studio book."""

_TABLES = (
    """
    CREATE TABLE bath (
        id INTEGER PRIMARY KEY AUTOINCREMENT,
        folded TEXT NOT NULL UNIQUE,
        name TEXT NOT NULL,
        metal TEXT NOT NULL,
        mordant TEXT NOT NULL,
        strength TEXT NOT NULL,
        movement TEXT NOT NULL,
        vessel TEXT NOT NULL,
        made_on TEXT NOT NULL,
        litres REAL,
        salt_g REAL,
        q REAL NOT NULL,
        note TEXT NOT NULL,
        retired_on TEXT NOT NULL
    ) STRICT
    """,
    """
    CREATE TABLE bath_use (
        bath_id INTEGER NOT NULL REFERENCES bath (id),
        identity TEXT NOT NULL,
        kind TEXT NOT NULL,
        bitten_on TEXT NOT NULL,
        metal_g REAL,
        PRIMARY KEY (bath_id, identity)
    ) STRICT, WITHOUT ROWID
    """,
    """
    CREATE TABLE strip (
        id INTEGER PRIMARY KEY AUTOINCREMENT,
        bath_id INTEGER NOT NULL REFERENCES bath (id),
        fingerprint TEXT NOT NULL,
        bitten_on TEXT NOT NULL,
        grained_on TEXT NOT NULL,
        dryness TEXT NOT NULL,
        grain TEXT NOT NULL,
        fineness TEXT NOT NULL,
        temperature_c REAL NOT NULL,
        patches INTEGER NOT NULL,
        longest_s REAL NOT NULL,
        proofs INTEGER NOT NULL,
        searched TEXT NOT NULL,
        UNIQUE (bath_id, fingerprint)
    ) STRICT
    """,
    "CREATE INDEX strip_of_bath ON strip (bath_id, bitten_on)",
    """
    CREATE TABLE strip_text (
        strip_id INTEGER PRIMARY KEY REFERENCES strip (id) ON DELETE CASCADE,
        text TEXT NOT NULL
    ) STRICT
    """,
    """
    CREATE TABLE plate (
        id INTEGER PRIMARY KEY AUTOINCREMENT,
        identity TEXT NOT NULL UNIQUE,
        title TEXT NOT NULL,
        path TEXT NOT NULL,
        saved_utc_s REAL NOT NULL,
        metal TEXT NOT NULL,
        tones INTEGER NOT NULL,
        bath TEXT NOT NULL,
        paper TEXT NOT NULL,
        ink TEXT NOT NULL,
        record TEXT NOT NULL,
        searched TEXT NOT NULL
    ) STRICT
    """,
    """
    CREATE TABLE thumbnail (
        plate_id INTEGER PRIMARY KEY REFERENCES plate (id) ON DELETE CASCADE,
        png BLOB NOT NULL
    ) STRICT
    """,
    """
    CREATE TABLE proof (
        id INTEGER PRIMARY KEY AUTOINCREMENT,
        plate_id INTEGER NOT NULL REFERENCES plate (id) ON DELETE CASCADE,
        best INTEGER NOT NULL DEFAULT 0,
        pulled_on TEXT NOT NULL,
        pull INTEGER NOT NULL,
        miss REAL NOT NULL,
        reading TEXT NOT NULL,
        dryness TEXT NOT NULL,
        means TEXT NOT NULL,
        scan TEXT NOT NULL,
        note TEXT NOT NULL
    ) STRICT
    """,
    "CREATE INDEX proof_of_plate ON proof (plate_id)",
    "CREATE UNIQUE INDEX best_proof ON proof (plate_id) WHERE best",
    """
    CREATE TABLE pull (
        id INTEGER PRIMARY KEY AUTOINCREMENT,
        plate_id INTEGER NOT NULL REFERENCES plate (id) ON DELETE CASCADE,
        pulled_on TEXT NOT NULL,
        kind TEXT NOT NULL,
        number INTEGER,
        edition INTEGER,
        paper TEXT NOT NULL,
        ink TEXT NOT NULL,
        note TEXT NOT NULL,
        searched TEXT NOT NULL
    ) STRICT
    """,
    "CREATE INDEX pull_of_plate ON pull (plate_id)",
    """
    CREATE TABLE tank_session (
        identity TEXT PRIMARY KEY,
        plate TEXT NOT NULL,
        begun_utc_s REAL NOT NULL,
        begun_with TEXT NOT NULL
    ) STRICT
    """,
    "CREATE INDEX session_of_plate ON tank_session (plate)",
    """
    CREATE TABLE tank_event (
        session TEXT NOT NULL REFERENCES tank_session (identity),
        number INTEGER NOT NULL,
        kind TEXT NOT NULL,
        boottime_s REAL NOT NULL,
        utc_s REAL NOT NULL,
        boot TEXT NOT NULL,
        detail TEXT NOT NULL,
        PRIMARY KEY (session, number)
    ) STRICT, WITHOUT ROWID
    """,
    """
    CREATE TRIGGER events_are_not_altered BEFORE UPDATE ON tank_event
    BEGIN SELECT raise(ABORT, 'events are only ever added'); END
    """,
    """
    CREATE TRIGGER events_are_not_removed BEFORE DELETE ON tank_event
    BEGIN SELECT raise(ABORT, 'events are only ever added'); END
    """,
    """
    CREATE TABLE lease (
        plate TEXT PRIMARY KEY,
        owner TEXT NOT NULL,
        boot TEXT NOT NULL,
        boottime_s REAL NOT NULL,
        utc_s REAL NOT NULL
    ) STRICT
    """,
)

STEPS: tuple[tuple[str, ...], ...] = (_TABLES,)
"""Statements of each step; the first makes the book."""

VERSION = len(STEPS)
