"""LaTeX in a source's fields, decoded for display without losing a figure."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable

from ..compiled_patterns import compiled

# A decoder of our own: the usual ones take a bare "%" for a remark and drop what they do not know, so that
# "12.3% (95% CI" becomes "12.3". Here every command is in a table, or stays as typed and is reported.
# Letters and accents as in Lamport 1994, LaTeX: a document preparation system, tables 3.1 and 3.2; the names of
# textcomp from memory of its documentation.

_ACCENTS = {
    "`": "\u0300", "'": "\u0301", "^": "\u0302", "~": "\u0303", "=": "\u0304", "u": "\u0306", ".": "\u0307",
    '"': "\u0308", "r": "\u030a", "H": "\u030b", "v": "\u030c", "d": "\u0323", "c": "\u0327", "k": "\u0328",
    "b": "\u0331",
}  # fmt: skip
_NAMED = """
    ss ß o ø O Ø ae æ AE Æ oe œ OE Œ aa å AA Å l ł L Ł i ı j ȷ dh ð DH Ð th þ TH Þ dj đ DJ Đ ng ŋ NG Ŋ textless
    < textgreater > textpercent % textminus − textperiodcentered · cdot · textendash – textemdash —
    textquoteleft ‘ textquoteright ’ textquotedblleft “ textquotedblright ” textasciitilde ~ textasciicircum ^
    textbar | textunderscore _ textdollar $ textdegree ° degree ° textmu µ textmicro µ textpm ± texttimes ×
    textdiv ÷ textonehalf ½ textonequarter ¼ textthreequarters ¾ textellipsis … ldots … dots … textregistered ®
    texttrademark ™ textcopyright © copyright © pounds £ textsterling £ texteuro € textsection § S §
    textparagraph ¶ P ¶ dag † ddag ‡ textdagger † textdaggerdbl ‡ textbullet • textasteriskcentered *
    textordfeminine ª textordmasculine º textonesuperior ¹ texttwosuperior ² textthreesuperior ³ textexclamdown
    ¡ textquestiondown ¿ guillemotleft « guillemotright » guilsinglleft ‹ guilsinglright › pm ± times × div ÷
    leq ≤ le ≤ geq ≥ ge ≥ neq ≠ ne ≠ lt < gt > approx ≈ sim ∼ equiv ≡ infty ∞ rightarrow → to → leftarrow ←
    alpha α beta β gamma γ delta δ Delta Δ epsilon ε kappa κ lambda λ mu µ pi π rho ρ sigma σ Sigma Σ tau τ phi
    φ chi χ psi ψ omega ω Omega Ω theta θ TeX TeX LaTeX LaTeX prime ′ circ ° slash / ast * mid | log log ln ln
    exp exp
"""
_SYMBOLS = {
    "%": "%", "&": "&", "$": "$", "#": "#", "_": "_", "{": "{", "}": "}", " ": " ", "\n": " ", "\\": " ",
    ",": "\u2009",
    ";": " ", ":": " ", "!": "", "-": "", "/": "", "@": "", "(": "", ")": "", "[": "", "]": "",
    "quad": " ", "qquad": " ",
    "space": " ", "newline": " ", "par": " ", "textbackslash": "\\", "backslash": "\\",
}  # fmt: skip
_SYMBOLS |= dict(zip(_NAMED.split()[::2], _NAMED.split()[1::2], strict=True))
_KEEP_NAMES = """
    textit textbf textsc textrm textsf texttt textup textmd textsl textnormal emph mbox hbox text enquote url
    path mathrm mathit mathbf mathsf ensuremath underline uppercase lowercase MakeUppercase MakeLowercase
    nolinkurl operatorname num mkbibquote mkbibemph
"""
_KEEP = frozenset(_KEEP_NAMES.split())
"""Commands of one argument that is shown as it is."""
_SWITCHES_NAMES = """
    it bf rm sc sf sl tt em itshape bfseries rmfamily scshape upshape mdseries small large normalsize
    footnotesize noopsort protect relax displaystyle limits nobreak left right big Big sloppy allowbreak
    linebreak noindent ignorespaces unskip
"""
_SWITCHES = frozenset(_SWITCHES_NAMES.split())
"""Commands that change the look of what follows, and nothing in it."""
_RAISED = dict(zip("0123456789+-−=()ni", "⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻⁻⁼⁽⁾ⁿⁱ", strict=True))
_LOWERED = dict(zip("0123456789+-−=()", "₀₁₂₃₄₅₆₇₈₉₊₋₋₌₍₎", strict=True))
_HIGH = frozenset("°′")
_QUOTES = (("---", "—"), ("--", "–"), ("``", "“"), ("''", "”"), ("`", "‘"), ("'", "’"))

_SPECIAL = frozenset("\\{}$~`'-")
_collapse = compiled(r"[ \t\n]+").sub
_find_commands = compiled(r"\\([A-Za-z]+\*?|.|\Z)", re.DOTALL).finditer
_KNOWN = frozenset(
    (*_ACCENTS, *_SYMBOLS, *_KEEP, *_SWITCHES, "textsuperscript", "textsubscript", "href", "frac", "sqrt")
)


def unknown_commands(text: str) -> list[tuple[int, str]]:
    """Offset and name of each command that `readable_text` would leave as typed; costs one look through the text."""
    return [(found.start(), found[0]) for found in _find_commands(text) if found[1].rstrip("*") not in _KNOWN]


def readable_text(text: str) -> str:
    """The text as a page prints it: "12.3\\%" is "12.3%", "$10^{-3}$" is "10⁻³", "M{\\"u}ller" is "Müller".

    Braces that only group are dropped, a bare "%" and "&" stay, blanks collapse to one, "~" is a no-break space.
    A command that `unknown_commands` lists stays as typed: nothing is lost, and the check has reported it.
    """
    decoded = text
    if not _SPECIAL.isdisjoint(text):
        decoded = unicodedata.normalize("NFC", _Decoder(text).decode())
    return _collapse(" ", decoded)


readable = readable_text
"""The same; the build hands it to whoever shows a slice of a text."""

_DEEPEST = 60


class _Decoder:
    def __init__(self, text: str) -> None:
        self.text = text
        self.at = 0
        self.depth = 0
        self.in_mathematics = False

    def decode(self, closing: str = "") -> str:
        """From here to the closing sign, or to the end of the text."""
        self.depth += 1
        parts: list[str] = []
        text = self.text
        while self.at < len(text):
            character = text[self.at]
            if character == closing:
                self.at += 1
                break
            parts.append(self._next(character))
        self.depth -= 1
        return "".join(parts)

    def _next(self, character: str) -> str:
        self.at += 1
        if character == "\\":
            return self._command()
        if character == "{":
            # Deeper than anybody writes: the brace is dropped like one that only groups, which loses nothing.
            return self.decode("}") if self.depth < _DEEPEST else ""
        if character == "}":
            return ""
        if character == "$":
            self.in_mathematics = not self.in_mathematics
            return ""
        if character == "~":
            return "\u00a0"
        if self.in_mathematics:
            if character in "^_":
                return self._script(self._argument(), _RAISED if character == "^" else _LOWERED, character)
            return "−" if character == "-" else character
        for sign, letter in _QUOTES:
            if self.text.startswith(sign, self.at - 1):
                self.at += len(sign) - 1
                return letter
        return character

    def _command(self) -> str:
        found = re.compile(r"[A-Za-z]+\*?|.|\Z", re.DOTALL).match(self.text, self.at)
        name = found[0] if found else ""
        self.at += len(name)
        if name[:1].isalpha():
            name = name.rstrip("*")
            # TeX takes the blanks behind a command in letters for its end.
            if name not in _ACCENTS and self.text[self.at : self.at + 2] != "  " and not self._is_before_relation():
                while self.text[self.at : self.at + 1] in (" ", "\n", "\t") and self.at < len(self.text):
                    self.at += 1
        read = _ARGUMENTS.get(name)
        if read is not None:
            return read(self)
        if name in _SYMBOLS:
            return _SYMBOLS[name]
        if name in _SWITCHES:
            return ""
        if name in _KEEP:
            return self._argument()
        if name in _ACCENTS:
            letter = self._argument().replace("ı", "i").replace("ȷ", "j")
            # Behind the marks that the letter has already: of stacked ones the inner stands nearest to it.
            end = next((at for at, sign in enumerate(letter) if at and not unicodedata.combining(sign)), len(letter))
            return letter[:end] + _ACCENTS[name] + letter[end:] if letter else ""
        return f"\\{name}"

    def _is_before_relation(self) -> bool:
        """In mathematics, where blanks are made and not typed: before "=", "<" or ">" stands one."""
        return self.in_mathematics and self.text[self.at : self.at + 2] in (" =", " <", " >")

    def _argument(self) -> str:
        if self.depth > _DEEPEST:
            return ""
        self.depth += 1
        text = self._one()
        self.depth -= 1
        return text

    def _one(self) -> str:
        while self.text[self.at : self.at + 1].isspace():
            self.at += 1
        character = self.text[self.at : self.at + 1]
        return self._next(character) if character else ""

    def _script(self, text: str, table: dict[str, str], sign: str) -> str:
        """Raised or lowered where there are such characters; else "10^3x", which must not become "103x"."""
        if text and all(character in table for character in text):
            return "".join(table[character] for character in text)
        # The ring of "37^\circ" and the stroke of "x^\prime" stand high by themselves.
        return text if text.isalpha() or text in _HIGH else sign + text

    def _optional(self) -> str:
        if self.text[self.at : self.at + 1] != "[" or self.depth > _DEEPEST:
            return ""
        self.at += 1
        return self.decode("]")

    def _link(self) -> str:
        self._argument()
        return self._argument()

    def _address(self) -> str:
        """The address between braces as it is: a "~" is no blank in it."""
        end = self.text.find("}", self.at)
        if self.text[self.at : self.at + 1] != "{" or end < 0 or "{" in self.text[self.at + 1 : end]:
            return self._argument()
        address, self.at = self.text[self.at + 1 : end], end + 1
        return re.sub(r"\\([%_&#~])", r"\1", address)

    def _fraction(self) -> str:
        return f"{self._argument()}/{self._argument()}"

    def _root(self) -> str:
        degree = self._optional()
        return f"{degree}√{self._argument()}"


_ARGUMENTS: dict[str, Callable[[_Decoder], str]] = {
    "textsuperscript": lambda decoder: decoder._script(decoder._argument(), _RAISED, "^"),
    "textsubscript": lambda decoder: decoder._script(decoder._argument(), _LOWERED, "_"),
    "href": _Decoder._link,
    "url": _Decoder._address,
    "path": _Decoder._address,
    "nolinkurl": _Decoder._address,
    "frac": _Decoder._fraction,
    "sqrt": _Decoder._root,
}
