#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Reads every #include of core/ and app/ against the table of who may know whom.

    include_rules.py ROOT        one line a violation; exit 1 when there is any
"""
import pathlib
import re
import sys

MODEL = {"base", "circuit"}
CORE = {
    "base": set(),
    "circuit": {"base"},
    "drawing": MODEL,
    "expression": {"base"},
    "devices": MODEL,
    "solve": MODEL | {"devices", "expression"},
    "measure": MODEL | {"devices", "solve"},
    "parts": MODEL,
    "plan": MODEL | {"drawing", "parts", "solve", "measure"},
    "bench": MODEL | {"drawing", "parts", "solve", "measure", "plan"},
    "board": MODEL | {"plan", "bench"},
    "sound": MODEL | {"solve", "measure"},
    "files": MODEL | {"drawing", "expression", "devices", "solve", "measure", "parts", "plan", "bench", "sound"},
}
SERVICES = {"look", "document", "background"}
APP = {"look": set(), "document": set(), "background": {"document"}, "papers": {"look", "document", "background"}}
PANELS = {"map", "curves", "consequences", "mods", "part", "knobs", "drawer", "board", "checklist", "history", "stages", "listen"}
APP |= {panel: SERVICES for panel in PANELS}
APP |= {joint: SERVICES | PANELS | {"papers", "window"} for joint in ("window", "commandline")}

# Third-party headers: pattern, who may include them.
LIBRARIES = [
    (r"nlohmann/", {"core/files"}),
    (r"Eigen/", {"core/devices", "core/solve", "core/measure"}),
    (r"CLI/", {"app/commandline"}),
    (r"(Q[A-Z]|Qt|qcustomplot)", {f"app/{folder}" for folder in APP}),
]
INCLUDE = re.compile(r'^\s*#\s*include\s*([<"])([^>"]+)[>"]')


def reason(owner, quote, header):
    """Why `owner`, such as "core/solve", must not include `header`; empty when it may."""
    for pattern, owners in LIBRARIES:
        if quote == "<" and re.match(pattern, header):
            return "" if owner in owners else f"{owner} must not use this library"
    if quote == "<" or header.endswith(".moc"):
        return ""
    side, _, rest = header.partition("/")
    folder = rest.split("/")[0]
    if side not in ("core", "app") or "/" not in rest:
        return 'write own includes from the top: "core/base/result.h"'
    if f"{side}/{folder}" == owner:
        return ""
    owner_side, owner_folder = owner.split("/")
    if side == "core" and folder in CORE:
        allowed = owner_side == "app" or folder in CORE[owner_folder]
    else:
        allowed = owner_side == "app" and folder in APP[owner_folder]
    return "" if allowed else f"{owner} must not know {side}/{folder}"


def violations(root):
    found = []
    for path in sorted(pathlib.Path(root).glob("*/**/*")):
        parts = path.relative_to(root).parts
        if parts[0] not in ("core", "app") or path.suffix not in (".h", ".cpp"):
            continue
        owner = "/".join(parts[:2])
        if len(parts) < 3 or parts[1] not in (CORE if parts[0] == "core" else APP):
            found.append(f"{'/'.join(parts)}: no folder of the table")
            continue
        for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
            match = INCLUDE.match(line)
            why = reason(owner, *match.groups()) if match else ""
            if why:
                found.append(f"{'/'.join(parts)}:{number}: {match.group(2)}: {why}")
    return found


if __name__ == "__main__":
    faults = violations(sys.argv[1])
    print("\n".join(faults) if faults else "every include follows the table")
    sys.exit(1 if faults else 0)
