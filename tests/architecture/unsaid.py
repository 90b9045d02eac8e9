#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Finds English that a person would read and that no catalogue can translate.

    unsaid.py ROOT [FOLDER...]     one line a text; exit 1 when there is any

A text is a string literal of two words or more (or one word, a space and something to be glued) that is not handed to
said(), toSay(), tr() or translate(). What is the same in every language stands in ASIDE: the command line, the words of
file formats and of netlists; and so are formulas and what is compared with a word that is kept. What else is an
identity and no text is listed, a line each, in same_in_every_language.txt.
"""
import pathlib
import re
import sys

SPOKEN = {"said", "saidMeaning", "toSay", "tr", "translate"}
# Read by programs, or English in every language.
ASIDE = ("app/commandline/",
         # Netlists as they are written: cards and comments.
         "core/files/netlist_writer.cpp", "core/files/netlist_laws.cpp",
         # Read by tests alone.
         "core/drawing/legibility.cpp")
# In core/files a word of a file and what it means: {"swap value", ChangeWord::swapValue}.
FORMAT_WORD = re.compile(r'\s*,\s*\w+::\w+\s*\}')
LIST = "tests/architecture/same_in_every_language.txt"
LITERAL = re.compile(r'"(?:[^"\\\n]|\\.)*"')
COMMENT = re.compile(r"//[^\n]*|/\*.*?\*/", re.S)
WORDS = re.compile(r"[A-Za-z]{2,}[,;:]? [a-z]|[a-z]{2,}[:;,.]? ?$|^ ?[a-z]{2,}")
# "20·log(1 + Rf/Rg)": signs of a formula and no word of a language.
FORMULA_SIGN = re.compile(r"[·∥√]")
LANGUAGE_WORD = re.compile(r"\b(?!log\b)[a-z]{3,}\b")
SKIPPED = re.compile(r"#include|static_assert|setObjectName|setProperty|qWarning|assert\(")


def calls_around(code, at):
    """Names of the calls that hold the place, the innermost first; ends where the statement begins."""
    depth, names = 0, []
    for i in range(at - 1, max(at - 3000, -1), -1):
        c = code[i]
        if c in ")]}":
            depth += 1
        elif c in "([{":
            if depth == 0:
                name = re.search(r"([A-Za-z_]\w*)\s*$", code[max(0, i - 60):i])
                names.append(name.group(1) if name else c)
            else:
                depth -= 1
        elif c == ";" and depth == 0:
            break
    return names


def blanked(text):
    """Comments taken out, places kept; literals stay."""
    out, i = [], 0
    pattern = re.compile(r'"(?:[^"\\\n]|\\.)*"|\'(?:[^\'\\\n]|\\.)+\'|//[^\n]*|/\*.*?\*/', re.S)
    for found in pattern.finditer(text):
        out.append(text[i:found.start()])
        piece = found.group()
        out.append(piece if piece[0] in "\"'" else re.sub(r"[^\n]", " ", piece))
        i = found.end()
    out.append(text[i:])
    return "".join(out)


def unsaid(path):
    code = blanked(path.read_text(encoding="utf-8"))
    hidden = LITERAL.sub(lambda m: '"' + " " * (len(m.group()) - 2) + '"', code)
    for found in LITERAL.finditer(code):
        text = found.group()[1:-1]
        if not re.search(r"[a-z]{2,}", text) or " " not in text.strip() and not text.startswith(" ") and not text.endswith(" "):
            continue
        start = code.rfind("\n", 0, found.start()) + 1
        end = code.find("\n", found.start())
        if SKIPPED.search(code[start:end]):
            continue
        if FORMULA_SIGN.search(text) and not LANGUAGE_WORD.search(text):
            continue
        if code[:found.start()].rstrip().endswith(("==", "!=")):
            continue
        isFormat = "core/files/" in path.as_posix() and code[:found.start()].endswith("{")
        if isFormat and FORMAT_WORD.match(code, found.end()):
            continue
        if SPOKEN & set(calls_around(hidden, found.start())[:1]):
            continue
        yield code.count("\n", 0, found.start()) + 1, text


def unsaid_in(root, folders=("core", "app")):
    """(file, line, text) of every one."""
    root = pathlib.Path(root)
    for folder in folders:
        for path in sorted((root / folder).rglob("*")):
            name = path.relative_to(root).as_posix()
            if path.suffix in (".h", ".cpp") and not name.startswith(ASIDE):
                for line, text in unsaid(path):
                    yield name, line, text


def faults(root, folders=("core", "app")):
    """A line each: texts that are not said and not in the list, and lines of the list that nothing needs."""
    listed = pathlib.Path(root, LIST).read_text(encoding="utf-8").splitlines() if pathlib.Path(root, LIST).exists() else []
    kept = {line for line in listed if line and not line.startswith("#")}
    found, used = [], set()
    for name, line, text in unsaid_in(root, folders):
        entry = f"{name}: {text}"
        used.add(entry)
        if entry not in kept:
            found.append(f"{name}:{line}: hand it to said() or tr(), or list it in {LIST}: {text}")
    if tuple(folders) == ("core", "app"):
        found += [f"{LIST}: no source has this any more: {entry}" for entry in sorted(kept - used)]
    return found


if __name__ == "__main__":
    wrong = faults(sys.argv[1], tuple(sys.argv[2:]) or ("core", "app"))
    print("\n".join(wrong) if wrong else "every text can be translated")
    sys.exit(1 if wrong else 0)
