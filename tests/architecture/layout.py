#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Reads the top level and the sources against the rules of the house.

    layout.py ROOT        one line a fault; exit 1 when there is any

The top level holds exactly the entries below; dot-files and build directories aside. Every C++ file names its
licence and leaves nothing to be done later.
"""
import fnmatch
import pathlib
import re
import sys

TOP = {
    "CMakeLists.txt",
    "README.md",
    "DEVELOPERS.md",
    "LICENSE",
    "app",
    "core",
    "resources",
    "tests",
    "demo-projects",
}
ASIDE = (".*", "build", "build-*", "compile_commands.json")
LICENCE = "SPDX-License-Identifier: GPL-3.0-or-later"
# Written in halves, so that this file itself holds none of them.
LATER = re.compile(r"\b(TO" r"DO|FIX" r"ME|XX" r"X|HA" r"CK)\b|\b(DIS" r"ABLED_|GTEST" r"_SKIP)")


def faults(root):
    root = pathlib.Path(root)
    top = {entry.name for entry in root.iterdir() if not any(fnmatch.fnmatch(entry.name, name) for name in ASIDE)}
    found = [f"{name}: does not belong at the top level" for name in sorted(top - TOP)]
    found += [f"{name}: is missing at the top level" for name in sorted(TOP - top)]
    for path in sorted(root.glob("*/**/*")):
        parts = path.relative_to(root).parts
        if parts[0] not in ("core", "app", "tests") or path.suffix not in (".h", ".cpp"):
            continue
        text = path.read_text(encoding="utf-8")
        name = "/".join(parts)
        if LICENCE not in text:
            found.append(f"{name}: names no licence")
        if LATER.search(text):
            found.append(f"{name}: leaves something to be done later: {LATER.search(text).group()}")
    return found


if __name__ == "__main__":
    wrong = faults(sys.argv[1])
    print("\n".join(wrong) if wrong else "the layout is as it should be")
    sys.exit(1 if wrong else 0)
