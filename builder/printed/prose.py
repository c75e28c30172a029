"""Which numbers of a sentence belong to which of the names in it."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from ..compiled_patterns import compiled
from ..numerals import Token
from ..numerals.late import in_small
from .clauses import Span, brackets_inside, is_comparison, parts_between_semicolons, sentences
from .earlier_names import Earlier
from .lists import (
    MEASURES,
    STRUCTURAL,
    Bracket,
    Item,
    apart,
    begins_with_name,
    brackets_in,
    brackets_within,
    in_step,
    is_bracket_of_each,
    is_leading,
    is_list,
    is_near,
    is_of_all,
    items_of,
    last_list,
    name_runs,
    runs_of,
    says_respectively,
    stands_behind,
    without_leading_whole,
    without_wholes_of_each,
)
from .one_and_other import is_aside, pair_behind, pair_in_turn
from .owner import UNCLEAR, Owners
from .wordings import Mention

_SEPARATORS = in_small(
    r"[,:](?=\s)|\b(?:and|or|but|while|whereas|than(?!\s*\d)|versus|vs?|against|compared|although|whilst)\b"
)

_Part = tuple[str, list[Mention], list[Item]]
"""Of a clause: the sign or word at which it begins, and the names and numbers in it."""

_match_spread = compiled(r"\s*(?:[a-z]+\.?\s*)?(?:[(\[±]|\$?\\pm)").match
_match_colon = compiled(r"\s*(?:\([^()]*\)|\w+)?\s*:").match


class Prose(Earlier):
    """The numbers of one passage, clause after clause."""

    def __init__(
        self, text: str, tokens: Sequence[Token], mentions: list[Mention], owners: Owners, counted: frozenset[str],
        *, is_complete: bool,
    ) -> None:  # fmt: skip
        super().__init__(text, tokens, mentions, owners, counted, is_complete=is_complete)
        self.is_apart = False
        """Whether a list behind one name of this clause was of that name and another one."""

    def read_prose(self, whole: Span, numbers: Sequence[int]) -> None:
        """Sentence after sentence, each between its semicolons."""
        for sentence in sentences(self.text, *whole):
            self.is_headed = False
            for part in parts_between_semicolons(self.text, *sentence):
                inside = [index for index in numbers if part[0] <= self.tokens[index].start < part[1]]
                self.read_region(part, inside)
                self.is_headed = self._is_headed(part, self.is_headed)
            self.told = self.gone_through(sentence, []) or self.told

    def read_lines(self, lines: Sequence[Span], numbers: Sequence[int]) -> None:
        """Lines that are rows or headings of rows, one after the other."""
        self.is_headed = False
        for line in lines:
            inside = [index for index in numbers if line[0] <= self.tokens[index].start < line[1]]
            if len(self.named(line)) > 1:
                self.read_prose(line, inside)
            else:
                self.read_region(line, inside)
                self.is_headed = self.is_headed or bool(self.named(line))

    def _is_headed(self, part: Span, was_headed: bool) -> bool:
        """Whether the name at the head of a part stands over the parts behind it too: "A: 47 treated; 39 healed"."""
        named = self.named(part)
        if not named:
            return was_headed
        return len(named) == 1 and _match_colon(self.text, named[0].end) is not None

    def read_region(self, region: Span, numbers: Sequence[int]) -> None:
        """The numbers of one clause, or of one bracket with several names in it."""
        mentions = [mention for mention in self.mentions if region[0] <= mention.start < region[1]]
        mentions, numbers, closed = self._read_brackets(region, mentions, list(numbers))
        structural = [index for index in numbers if self._says_what_was_found(index)]
        if not structural:
            structural = [index for index in numbers if self.tokens[index].kind in MEASURES]
        items = items_of(self.text, self.tokens, structural, closed, self.counted)
        items = [part for item in items for part in apart(self.text, self.tokens, item, mentions, self.counted)]
        items_left = without_leading_whole(self.text, without_wholes_of_each(self.text, items))
        free = self._without_prefixes(items_left, mentions)
        self.is_timed = self.is_timed and not mentions
        keys = list(dict.fromkeys(mention.key for mention in mentions))
        if keys:
            free = [item for item in free if not is_of_all(self.text, item)]
        pair: list[Mention] = []
        if len(keys) > 1:
            free = self._without_last_list(region, mentions, free)
        else:
            pair, free = self._paired_in_turn(mentions, free)
        if free:
            if not keys:
                self.from_before(region, free)
            elif len(keys) == 1 or not self._in_parallel(region, mentions, free):
                self._by_parts(region, mentions, free, is_alone=len(keys) == 1 and self.is_complete)
        self._rest(items, numbers, mentions)
        self.before = pair or self.gone_through(region, mentions) or self.before

    def _paired_in_turn(self, mentions: list[Mention], free: list[Item]) -> tuple[list[Mention], list[Item]]:
        """The one name and the other one that two numbers set against each other go with, and what is left."""
        in_turn = pair_in_turn(self, mentions, free)
        for item, mention in in_turn:
            self.own(item.numbers, mention, by="position")
        return [mention for _, mention in in_turn], [] if in_turn else free

    def _read_brackets(
        self, region: Span, mentions: list[Mention], numbers: list[int]
    ) -> tuple[list[Mention], list[int], list[Bracket]]:
        """Leave out what brackets say by themselves; gives also the brackets that belong to the number before them."""
        closed: list[Bracket] = []
        self.is_apart = False
        for bracket in brackets_in(self.text, region, mentions, self.tokens, numbers):
            keys = {mention.key for mention in bracket.mentions}
            item_before = self._number_before(bracket.start, numbers)
            if len(keys) > 1:
                self._read_inside(bracket)
                taken = bracket.numbers
            elif keys:
                label = bracket.mentions[0]
                taken = [*bracket.numbers, *item_before]
                self.own(taken, label)
                if not item_before:
                    continue
            else:
                if is_bracket_of_each(self.text, bracket.start, bracket.end):
                    numbers = [index for index in numbers if index not in bracket.numbers]
                    continue
                named = [
                    mention for mention in mentions
                    if mention.end <= bracket.start and is_near(self.text[mention.end : bracket.start])
                ]  # fmt: skip
                left = self._without_pair(region, mentions, bracket, numbers)
                if left is not None:
                    numbers = left
                    continue
                if is_list(self.text, self.tokens, bracket, self.counted):
                    closed += brackets_within(self.text, self.tokens, bracket)
                    continue
                if not named:
                    closed.append(bracket)
                    continue
                taken = bracket.numbers
                self.own(taken, named[-1])
            numbers = [index for index in numbers if index not in taken]
            if len(keys) > 1 or item_before:
                mentions = [mention for mention in mentions if mention not in bracket.mentions]
        return mentions, numbers, closed

    def _read_inside(self, bracket: Bracket) -> None:
        """A bracket with several names; between its semicolons, where each piece has one: "(A, 34/40; B, 25/41)"."""
        inner = (bracket.start + 1, bracket.end - 1)
        parts = parts_between_semicolons(self.text, *inner)
        if len(parts) < 2 or not all(len({each.key for each in self.named(part)}) == 1 for part in parts):
            parts = [(bracket.start, bracket.end)]
        for part in parts:
            inside = [index for index in bracket.numbers if part[0] <= self.tokens[index].start < part[1]]
            self.read_region(part, inside)

    def _without_pair(
        self, region: Span, mentions: list[Mention], bracket: Bracket, numbers: list[int]
    ) -> list[int] | None:
        """The numbers outside a bracket of two that are of one name and the other, and now have these; else None."""
        pair = pair_behind(self, region, mentions, bracket, numbers)
        for item, mention in pair:
            self.own(item.numbers, mention, by="position")
        self.is_apart = self.is_apart or bool(pair)
        return [index for index in numbers if index not in bracket.numbers] if pair else None

    def _says_what_was_found(self, index: int) -> bool:
        """Counts, shares, scores; a measure where its spread stands behind it: "2.7 mm (SD 1.2)", "2.7 (1.2) mm"."""
        token = self.tokens[index]
        if token.kind in ("size", "minutes") and not token.comparator:
            return _match_spread(self.text, token.end) is not None
        return token.kind in STRUCTURAL

    def _number_before(self, start: int, numbers: Sequence[int]) -> list[int]:
        """The numbers of the item that a bracket follows at once."""
        before = [index for index in numbers if self.tokens[index].start < start]
        items = items_of(self.text, self.tokens, before, [], self.counted)
        if not items or not is_near(self.text[items[-1].end : start].replace(")", "")):
            return []
        return items[-1].numbers

    def _without_prefixes(self, items: list[Item], mentions: list[Mention]) -> list[Item]:
        """Items that stand straight before a name are its own: "39 of 47 group A eyes", "the 61 eyes with A"."""
        prefixed: list[tuple[Item, Mention]] = []
        for item in items:
            behind = next((mention for mention in mentions if mention.start >= item.end), None)
            if behind is None or not is_leading(self.text[item.end : behind.start], self.counted):
                continue
            ahead = [mention for mention in mentions if mention.end <= item.start]
            if ahead and not self.text[ahead[-1].end : item.start].strip(" :|=-–\n"):
                continue
            prefixed.append((item, behind))
        if (
            len(prefixed) == 1
            and prefixed[0][0].is_listed
            and says_respectively(self.text, items[0].start, len(self.text))
        ):
            return items  # "88% and 74% for A and B, respectively": the last of a list
        runs = name_runs(self.text, mentions, [item for item, _ in prefixed], [], self.counted)
        having = {id(mention) for _, mention in prefixed}
        for item, mention in list(prefixed):
            run = next(each for each in runs if mention in each)
            if not all(id(other) in having for other in run):
                prefixed.remove((item, mention))
            else:
                self.own(item.numbers, mention)
        owned = [item for item, _ in prefixed]
        return [item for item in items if item not in owned]

    def _in_parallel(self, region: Span, mentions: list[Mention], free: list[Item]) -> bool:
        """Names in one list and numbers in another: each number belongs to the name in its own place."""
        is_told = says_respectively(self.text, *region)
        lists = self._lists_of(mentions, free, is_told=is_told)
        if not lists:
            return False
        if not is_told and any(all(mention not in run for run in lists) for mention in mentions):
            return False
        for items in runs_of(free):
            if not is_told and self.times_in(region) == len(items) > 1:
                self.unclear(items)  # "A and B at 12 and 24 months: 39 and 41"
                self.is_timed = True
                continue
            ahead = [run for run in lists if run[-1].end <= items[0].start]
            names = self._in_told_order(ahead[-1] if ahead else lists[0], region)
            found = in_step(self.text, items, self.tokens, len(names))
            for at, mention in enumerate(names):
                if found is None:
                    break
                self.own(found[at], mention, by="position")
            if found is None:
                self.unclear(items)
        return True

    def _lists_of(self, mentions: list[Mention], free: list[Item], *, is_told: bool) -> list[list[Mention]]:
        """Names in lists. is_told: whether the clause says that lists go in step."""
        lists = [
            run for run in self._name_runs_outside(mentions, free)
            if len({mention.key for mention in run}) == len(run) > 1 and self._has_all_or_none(run)
        ]  # fmt: skip
        if is_told and len(mentions) > max(map(len, lists), default=0):
            # "The upper edge, the middle with one groove and the lower third": other words part the names, and the
            # numbers are as many as all of them.
            outside = [item for item in free if item.end <= mentions[0].start or item.start >= mentions[-1].end]
            return (self._all_apart(mentions, outside) if outside else []) or lists
        return lists or self._all_apart(mentions, free)

    def _all_apart(self, mentions: list[Mention], free: list[Item]) -> list[list[Mention]]:
        """All names as one list, whatever stands between them, where one list of as many numbers stands before or
        behind them all."""
        is_apart = mentions[-1].end <= free[0].start or free[-1].end <= mentions[0].start
        is_each_once = len({mention.key for mention in mentions}) == len(mentions)
        if not (is_apart and is_each_once and self._has_all_or_none(mentions)):
            return []
        has_list = any(len(run) == len(mentions) for run in runs_of(free))
        return [mentions] if has_list else []

    def _without_last_list(self, region: Span, mentions: list[Mention], free: list[Item]) -> list[Item]:
        """Give each number of a list behind all names to the name in its place."""
        run = last_list(self.text, self.tokens, region, mentions, free)
        for item, mention in zip(run, mentions, strict=False):
            self.own(item.numbers, mention, by="position")
        return free[: len(free) - len(run)]

    def _has_all_or_none(self, run: list[Mention]) -> bool:
        """Whether each of some names, or none, has numbers of its own: "A (n = 47) and B (n = 45)"."""
        own = {owner.words[0] for owner in self.owners if owner is not None and owner.words}
        having = [(mention.start, mention.end) in own for mention in run]
        return all(having) or not any(having)

    def _in_told_order(self, run: list[Mention], region: Span) -> list[Mention]:
        """ "Compared with B, A healed more often (39 of 47 versus 30 of 45)": the first numbers are A's."""
        is_turned = is_comparison(self.text[region[0] : run[0].start])
        return run[::-1] if len(run) == 2 and is_turned else run

    def _name_runs_outside(self, mentions: list[Mention], free: list[Item]) -> list[list[Mention]]:
        """Lists of names with no free number between them."""
        attached: list[Item] = []
        for index, owner in enumerate(self.owners):
            if owner is not None and mentions[0].start <= self.tokens[index].start < mentions[-1].end:
                token = self.tokens[index]
                attached.append(Item(index, token.start, max(token.end, token.outer_end), is_listed=False))
        return name_runs(self.text, mentions, attached, free, self.counted)

    def _by_parts(self, region: Span, mentions: list[Mention], free: list[Item], *, is_alone: bool) -> None:
        """A clause between its commas and "and"s: a part with one name is that one's; a part with none goes with the
        name before it, or behind it where numbers come first.

        is_alone: the clause has one name, of all that the passage tells apart: what follows the name is its own.
        """
        parts = [part for part in self._parts(region, mentions, free) if not is_aside(self.text, part, mentions[0])]
        is_name_first = begins_with_name(parts)
        waiting: list[Item] = []
        last: Mention | None = None
        had_numbers = False
        for at, (sign, named, items) in enumerate(parts):
            keys = {mention.key for mention in named}
            if sign == ":" and waiting:  # "69 of 92 healed: 39 of 47 with A and 30 of 45 with B"
                waiting, is_name_first = [], begins_with_name(parts[at:])
            if len(keys) == 1:
                self.own_items(items, named[0])
                is_sure = self.is_complete and sign != "," and stands_behind(named[0], items)
                self.own_items(waiting, named[0], is_sure=is_sure)
                waiting, last, had_numbers = [], named[0], bool(items)
            elif keys:
                self._by_order(named, [*waiting, *items])
                waiting, last = [], None
            elif is_name_first and last is not None:
                self.own_items(items, last, is_sure=is_alone or not had_numbers or sign == ":")
                had_numbers = had_numbers or bool(items)
            elif is_name_first:
                self.unclear(items)
            else:
                waiting += items
        self.unclear(waiting)

    def _parts(self, region: Span, mentions: list[Mention], free: list[Item]) -> list[_Part]:
        held = [*((mention.start, mention.end) for mention in mentions), *((item.start, item.end) for item in free)]
        held += brackets_inside(self.text, *region)
        cuts = [(region[0], "")]
        for found in _SEPARATORS.finditer(self.text, *region):
            if not any(start <= found.start() < end for start, end in held):
                cuts.append((found.start(), found[0]))
        cuts.append((region[1] + 1, ""))
        return [
            (
                sign,
                [mention for mention in mentions if low <= mention.start < high],
                [item for item in free if low <= item.start < high],
            )
            for (low, sign), (high, _) in pairwise(cuts)
        ]

    def _by_order(self, named: list[Mention], items: list[Item]) -> None:
        """ "A 39 of 47 B 30 of 45": one name, one number, in turn."""
        if not items:
            return
        has_own = {owner.words[0] for owner in self.owners if owner is not None and owner.words}
        named = [mention for mention in named if (mention.start, mention.end) not in has_own] or named
        in_turn = sorted([*((mention.start, 0) for mention in named), *((item.start, 1) for item in items)])
        kinds = [kind for _, kind in in_turn]
        if len(named) == len(items) and all(one != other for one, other in pairwise(kinds)):
            for mention, item in zip(named, items, strict=True):
                self.own_items([item], mention)
        else:
            self.unclear(items)

    def _rest(self, items: list[Item], numbers: Sequence[int], mentions: list[Mention]) -> None:
        """Intervals, times and P values belong where the number before them does."""
        keys = {mention.key for mention in mentions}
        for index in numbers:
            if self.owners[index] is not None or any(index in item.numbers for item in items):
                continue
            at = self.tokens[index].start
            around = [item for item in items if item.start <= at]
            if around:
                owner = self.owners[around[-1].numbers[0]]
                if owner is not None:
                    self.owners[index] = owner._replace(is_sure=owner.is_sure and at < around[-1].end)
            elif len(keys) == 1:
                self.own([index], mentions[0], is_sure=self.is_complete)
            elif keys:
                self.owners[index] = UNCLEAR
