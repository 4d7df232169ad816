"""Names tied into groups: what has to do with what, straight or by way of others."""

from __future__ import annotations


class Ties:
    """Names tied into groups."""

    def __init__(self) -> None:
        self.up: dict[str, str] = {}

    def _top(self, name: str) -> str:
        self.up.setdefault(name, name)
        while self.up[name] != name:
            name = self.up[name]
        return name

    def tie(self, *names: str) -> None:
        """Put these into one group."""
        first = self._top(names[0])
        for name in names[1:]:
            self.up[self._top(name)] = first

    def groups(self) -> list[set[str]]:
        """The groups."""
        found: dict[str, set[str]] = {}
        for name in self.up:
            found.setdefault(self._top(name), set()).add(name)
        return list(found.values())
