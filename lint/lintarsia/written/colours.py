"""Which colour some tokens mean: a symbol, a colour's name, or the name of one of its supplies."""

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from lintarsia.chart.supplynames import supply_number
from lintarsia.written.lexer import NotUnderstood, Token, TokenKind, tokens_of
from lintarsia.written.order import ColourSupply
from lintarsia.written.vocabulary import KEPT

STRUCTURE = ",;:()[]{}*\"'“”‘’"
LONGEST_NAME = 12  # tokens
SHORTEST_PART = 3  # letters of a word that may stand for a longer name


class FoundYarn(NamedTuple):
    yarn: ColourSupply
    after: int  # index of the token that follows


class Colours:
    """The colours that a row's words may name. `names` maps a symbol to the colour's name, `also` to its others."""

    def __init__(
        self, symbols: Sequence[str], names: Mapping[str, str], also: Mapping[str, Sequence[str]] | None = None
    ) -> None:
        also = also or {}
        self.symbols = frozenset(symbols)
        self.plain = [
            name for symbol in symbols for name in (symbol, names.get(symbol, ""), *also.get(symbol, ())) if name
        ]
        self.by_name: dict[str, str] = {}
        self._by_words: dict[tuple[str, ...], str] = {}
        self._by_fold: dict[str, str | None] = {}
        for symbol in symbols:
            self._by_fold[symbol.casefold()] = None if symbol.casefold() in self._by_fold else symbol
            self._name(names.get(symbol, "").strip(), symbol)
        for symbol, others in also.items():
            for name in others:
                self._name(name.strip(), symbol)
        self._by_part = _parts(self._by_words)
        self._longest = max(map(len, self._by_words), default=0)

    def _name(self, name: str, symbol: str) -> None:
        if len(name) > 1:
            self.by_name.setdefault(name.casefold(), symbol)
            words = _words(name)
            if words:
                self._by_words.setdefault(words, symbol)
        elif name:
            self._by_fold.setdefault(name.casefold(), symbol)

    def names(self, word: str) -> bool:
        """Whether a word stands in the name of some colour."""
        return any(word in words for words in self._by_words)

    def at(self, tokens: Sequence[Token], index: int, *, slot: bool) -> FoundYarn | None:
        """The colour that begins at a token, if one does.

        `slot`: a colour is expected there (a count stands before it), so a digit may be a symbol and digits glued to a
        symbol are the number of a supply.
        """
        token = tokens[index]
        if token.kind is TokenKind.QUOTED:
            return FoundYarn(self._quoted(token), index + 1)
        supply = slot and token.text in self.symbols and _is_supply(tokens, index + 1)
        if not supply and (named := self._named(tokens, index)):
            return named
        symbol = self._symbol(token, tokens[index + 1] if index + 1 < len(tokens) else token, slot)
        if symbol is None:
            return None
        if slot and token.kind is TokenKind.WORD and _is_supply(tokens, index + 1):
            return FoundYarn(ColourSupply(symbol, int(tokens[index + 1].text)), index + 2)
        return FoundYarn(ColourSupply(symbol), index + 1)

    def _quoted(self, token: Token) -> ColourSupply:
        text = token.text
        if text in self.symbols:
            return ColourSupply(text)
        if text[0] in self.symbols and (number := supply_number(text[0], text)):
            return ColourSupply(text[0], number)
        symbol = self.by_name.get(text.strip().casefold()) or self._by_fold.get(text.casefold())
        if symbol is None:
            raise NotUnderstood(f"{text!r} is no colour of the key", token.start, token.end)
        return ColourSupply(symbol)

    def _named(self, tokens: Sequence[Token], index: int) -> FoundYarn | None:
        if tokens[index].text in self.symbols and not self._longest:
            return None
        for size in range(min(self._longest, len(tokens) - index), 0, -1):
            words = tuple(token.text.casefold() for token in tokens[index : index + size])
            symbol = self._by_words.get(words)
            if symbol is not None and (size > 1 or tokens[index].text not in self.symbols):
                return FoundYarn(ColourSupply(symbol), index + size)
        if hyphened := self._hyphened(tokens, index):
            return hyphened
        part = self._by_part.get(tokens[index].word)
        return FoundYarn(ColourSupply(part), index + 1) if part else None

    def _hyphened(self, tokens: Sequence[Token], index: int) -> FoundYarn | None:
        """`dusk-blue`, where the key has `Dusk blue`."""
        words, at = [tokens[index].text.casefold()], index + 1
        while at + 1 < len(tokens) and tokens[at].is_mark("-") and tokens[at].glued and tokens[at + 1].glued:
            words.append(tokens[at + 1].text.casefold())
            at += 2
        symbol = self._by_words.get(tuple(words)) if len(words) > 1 else None
        return FoundYarn(ColourSupply(symbol), at) if symbol else None

    def _symbol(self, token: Token, following: Token, slot: bool) -> str | None:
        text = token.text
        if token.kind is TokenKind.WORD:
            if len(text) != 1:
                return None
            if text.lower() in "kp" and following.kind is TokenKind.NUMBER and following.glued:
                return None  # a stitch
            return text if text in self.symbols else self._by_fold.get(text.casefold())
        if token.kind is TokenKind.NUMBER:
            alone = not token.glued and not (following.glued and following.kind in (TokenKind.WORD, TokenKind.NUMBER))
            return text if slot and alone and text in self.symbols else None
        if token.kind is TokenKind.MARK and text in self.symbols and text not in STRUCTURE:
            return text
        return None


def _parts(names: Mapping[tuple[str, ...], str]) -> dict[str, str]:
    """Words that stand in one colour's name only, such as `blue` for Dusk blue where no other colour is a blue."""
    owners: dict[str, set[str]] = {}
    for words, symbol in names.items():
        for word in words:
            if len(word) >= SHORTEST_PART and word.isalpha() and word not in KEPT:
                owners.setdefault(word, set()).add(symbol)
    return {word: next(iter(symbols)) for word, symbols in owners.items() if len(symbols) == 1}


def _words(name: str) -> tuple[str, ...]:
    """A name as the lexer would cut it; () for a name that must stand in quotes to be told from punctuation."""
    if not all(c.isalnum() or c in " -'’" for c in name):
        return ()
    try:
        words = tuple(token.text.casefold() for token in tokens_of(name)[:-1])
    except NotUnderstood:
        return ()
    return words if len(words) <= LONGEST_NAME and not words[0].isdigit() else ()


def _is_supply(tokens: Sequence[Token], index: int) -> bool:
    """Whether a number stands glued to the symbol before it and is not the count of what follows (`k3A6B`)."""
    if tokens[index].kind is not TokenKind.NUMBER or not tokens[index].glued:
        return False
    after = tokens[index + 1]
    return not (after.glued and after.kind in (TokenKind.WORD, TokenKind.QUOTED, TokenKind.STITCH))
