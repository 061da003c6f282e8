"""How easily a text reads: one formula for each language, with its source; syllables counted by rule.

English: Flesch-Kincaid grade, 0.39 words/sentences + 11.8 syllables/words - 15.59 (Kincaid, Fishburne, Rogers,
Chissom 1975). Spanish: perspicuity of Szigriszt-Pazos (1993), 206.835 - 62.3 syllables/words - words/sentences, read by
the INFLESZ scale (Barrio-Cantalejo 2008): 65 to 80 is "fairly easy", over 80 "very easy".

Numbers are read as one word of one syllable, and so is each placeholder: what stands there differs from unit to unit.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

_PLACEHOLDER = re.compile(r"\{[^{}]*\}")
_WORD = re.compile(r"[^\W_]+(?:['’-][^\W_]+)*")
_END = re.compile(r"[.!?…]+(?:\s|$)")
_ODD = {"area": 3, "areas": 3, "idea": 3, "create": 2, "every": 2, "employee": 3}
"""English words whose syllables the rule below would get wrong and that stand in cards or in its test."""


@dataclass(frozen=True)
class Counts:
    """Sentences, words and syllables of some texts."""

    sentences: int
    words: int
    syllables: int


def counts(texts: Iterable[str], language: str) -> Counts:
    """Count what the formulas ask for; each text ends a sentence, with a full stop or without."""
    sentences = words = syllables = 0
    for text in texts:
        for sentence in _END.split(_PLACEHOLDER.sub("x", text)):
            found = _WORD.findall(sentence)
            if found:
                sentences += 1
                words += len(found)
                syllables += sum(syllables_of(word, language) for word in found)
    return Counts(sentences, words, syllables)


def syllables_of(word: str, language: str) -> int:
    """Count the syllables of a word, by the rules of its language."""
    word = word.lower()
    if not any(sign.isalpha() for sign in word) or len(word) == 1:
        return 1
    if language == "es":
        return _spanish(word)
    return _ODD[word] if word in _ODD else _english(word)


def _english(word: str) -> int:
    """Vowel groups, less a silent e; -ed and -es are silent but after t, d and hissing sounds."""
    total = 0
    for part in re.split(r"['’-]", word):
        groups = len(re.findall(r"[aeiouy]+", part))
        silent = r"[^aeiouylw]e$|[aeiou]le$|we$|[^aeiouytd]ed$|[^aeiouysxzcgh]es$"
        groups -= re.search(silent, part) is not None
        groups += len(re.findall(r"i[ao](?!u)(?<!tio)(?<!sio)(?<!cia)(?<!tia)|[^q]ua(?=l)|eo(?=l)", part))
        total += max(groups, 1 if part else 0)
    return max(total, 1)


def _spanish(word: str) -> int:
    """Vowel groups; two strong vowels part, and so does a weak one with an accent beside a strong one."""
    word = re.sub(r"qu(?=[eéií])", "q", word)
    word = re.sub(r"gu(?=[eéií])", "g", word)
    word = re.sub(r"y$|y(?=[^aeiouáéíóúü])", "i", word)
    groups = len(re.findall(r"[aeiouáéíóúü]+", word))
    parted = len(re.findall(r"[aáeéoóíú](?=[aáeéoó])|[aáeéoó](?=[íú])", word))
    return max(groups + parted, 1)


def flesch_kincaid_grade(texts: Iterable[str]) -> float:
    """Return the US school grade at which English texts can be read."""
    found = counts(texts, "en")
    return 0.39 * found.words / found.sentences + 11.8 * found.syllables / found.words - 15.59


def szigriszt(texts: Iterable[str]) -> float:
    """Return the perspicuity of Spanish texts; 65 and more is fairly easy by the INFLESZ scale."""
    found = counts(texts, "es")
    return 206.835 - 62.3 * found.syllables / found.words - found.words / found.sentences
