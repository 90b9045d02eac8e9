#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Holds the catalogues of the languages against the English that stands in the sources.

    catalogue.py ROOT                one line a fault; exit 1 when there is any
    catalogue.py ROOT --complete     names every English text without a translation as well

Reads resources/languages/*.po. A translation has the places %1 to %9 of its English, each as often; it is not empty, not
marked fuzzy, stands once, and its English is still said somewhere in core/ or app/. The command line speaks English alone.
xgettext, of the package gettext, collects the texts.
"""
import collections
import json
import pathlib
import re
import subprocess
import sys

SPOKEN = ("said", "toSay", "tr", "tr:1,2c", "translate:2", "saidMeaning:1c,2")
ASIDE = "app/commandline/"
PLACE = re.compile(r"%[1-9]")
# `msgid "..."` and the lines of quotes that carry it on; "#~ " before them marks what is obsolete. msgctxt stands before its
# msgid and says which meaning of it is meant.
LINE = re.compile(r'(?:#~ )?(?:(msgctxt|msgid|msgstr) )?(".*")')


class Entry:
    def __init__(self, line, is_fuzzy):
        self.line = line
        self.is_fuzzy = is_fuzzy
        self.msgctxt = ""
        self.msgid = ""
        self.msgstr = ""

    @property
    def text(self):
        """What is told apart: the English, and its meaning where it has several."""
        return f"{self.msgid} [{self.msgctxt}]" if self.msgctxt else self.msgid


def entries(text):
    """The entries of a catalogue in its order, its header left out."""
    found, field, is_fuzzy = [], "", False
    for number, line in enumerate(text.splitlines(), 1):
        is_fuzzy = is_fuzzy or line.startswith("#,") and "fuzzy" in line
        read = LINE.fullmatch(line)
        if not read:
            continue
        if read[1] == "msgctxt" or read[1] == "msgid" and field != "msgctxt":
            found.append(Entry(number, is_fuzzy))
            is_fuzzy = False
        field = read[1] or field
        setattr(found[-1], field, getattr(found[-1], field) + json.loads(read[2]))
    return [entry for entry in found if entry.msgid]


def spoken(root):
    """Every English text that core and the window say."""
    root = pathlib.Path(root)
    sources = [path.relative_to(root).as_posix() for path in sorted(root.glob("*/**/*")) if path.suffix in (".h", ".cpp")]
    sources = [path for path in sources if path.startswith(("core/", "app/")) and not path.startswith(ASIDE)]
    keywords = ["--keyword", *(f"--keyword={word}" for word in SPOKEN)]
    run = subprocess.run(
        ["xgettext", "-C", "--from-code=UTF-8", *keywords, "--files-from=-", "--output=-"],
        cwd=root, input="\n".join(sources), capture_output=True, encoding="utf-8", check=True,
    )
    return {entry.text for entry in entries(run.stdout)}


def places(text):
    return collections.Counter(PLACE.findall(text))


def faults_of(entry, english):
    if entry.is_fuzzy:
        yield "is marked fuzzy"
    if not entry.msgstr:
        yield "has no translation"
    elif places(entry.msgid) != places(entry.msgstr):
        yield f'has other places than its translation "{entry.msgstr}"'
    if entry.text not in english:
        yield "is said nowhere any more"


def faults(root, is_complete=False):
    english = spoken(root)
    found = []
    for path in sorted(pathlib.Path(root, "resources", "languages").glob("*.po")):
        first = {}
        for entry in entries(path.read_text(encoding="utf-8")):
            wrong = list(faults_of(entry, english))
            if entry.text in first:
                wrong.append(f"stands in line {first[entry.text]} already")
            first.setdefault(entry.text, entry.line)
            found += [f'{path.name}:{entry.line}: "{entry.text}" {fault}' for fault in wrong]
        if is_complete:
            found += [f'{path.name}: "{text}" has no translation' for text in sorted(english - first.keys())]
    return found


if __name__ == "__main__":
    wrong = faults(sys.argv[1], "--complete" in sys.argv[2:])
    print("\n".join(wrong) if wrong else "the catalogues are as they should be")
    sys.exit(1 if wrong else 0)
