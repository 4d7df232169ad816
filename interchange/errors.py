"""The two ways a call can go wrong: a problem in a user's file is a value, a wrong call is an exception."""

from __future__ import annotations

from typing import NamedTuple


class Problem(NamedTuple):
    """One fault in a user's file. Sorts by file, line and column; all are counted from 1."""

    file: str
    line: int
    column: int
    slug: str
    text: str
    hint: str = ""

    def __str__(self) -> str:
        hint = f" ({self.hint})" if self.hint else ""
        return f"{self.file}:{self.line}:{self.column}: {self.text}{hint} [{self.slug}]"


class InputError(Exception):
    """A wrong call or input: what is wrong, and how to mend it. Ends a command with exit code 2."""

    def __init__(self, text: str, hint: str = "") -> None:
        super().__init__(text)
        self.text = text
        self.hint = hint

    def __str__(self) -> str:
        return f"{self.text} ({self.hint})" if self.hint else self.text


class FileProblemsError(InputError):
    """Files that a command needs have problems; carries them all, sorted."""

    def __init__(self, problems: tuple[Problem, ...]) -> None:
        super().__init__("\n".join(str(problem) for problem in problems))
        self.problems = problems
