"""A kind of file that lintarsia does not have, a card of yarns: what its module in `engine/subjects` would be."""

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from lintarsia.chart import Places
from lintarsia.engine.subjects.base import Acceptance, Subject
from lintarsia.ground.kinds import Kind
from lintarsia.ground.values import dataclass
from lintarsia.reading import read_document
from lintarsia.result import Finding


@dataclass(frozen=True, slots=True)
class YarnCard:
    """`yarns` as they are written, by name."""

    yarns: Mapping[str, Any]
    places: Places


class YarnCardSubject(Subject):
    """`work` is there once the card is read."""

    kind = Kind("yarncard")
    card: Mapping[str, Any] | None = None
    _places = Places()

    def read(self) -> Iterable[tuple[str, Finding]]:
        most = self.settings.max_bytes
        document = read_document(self.file, self.data, schema="yarncard.schema.json", max_bytes=most, read=self.files)
        self.card, self._places = document.data, document.places
        return document.sorted_problems()

    def gather(self) -> None:
        if self.card:
            self.work = YarnCard(self.card.get("yarns") or {}, self.places)

    @property
    def places(self) -> Places:
        return self._places

    def accepted(self) -> Sequence[Acceptance]:
        own = (self.card or {}).get("suppress") or ()
        return [Acceptance(said["rule"], said["justification"], i, lambda found: True) for i, said in enumerate(own)]


SUBJECT = YarnCardSubject
