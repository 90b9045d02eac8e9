#!/usr/bin/env python3
"""Gives a font file a family name of its own: rename_family.py IN.otf OUT.otf FAMILY STYLE.

Only the name table changes; outlines and metrics stay as they are. Needed because the Debian package of B612
also files its monospaced faces under the family "B612", and where that package is installed they would stand
in for the bundled ones.
"""
# SPDX-License-Identifier: GPL-3.0-or-later
import struct
import sys


def checksum(data: bytes) -> int:
    padded = data + b"\0" * (-len(data) % 4)
    return sum(struct.unpack(f">{len(padded) // 4}I", padded)) & 0xFFFFFFFF


def renamed(table: bytes, family: str, style: str) -> bytes:
    postscript = f"{family.replace(' ', '')}-{style}"
    names = {1: family, 3: postscript, 4: f"{family} {style}", 6: postscript, 16: family}
    _, count, strings = struct.unpack(">3H", table[:6])
    records, heap = [], b""
    for index in range(count):
        platform, encoding, language, kind, length, offset = struct.unpack_from(">6H", table, 6 + 12 * index)
        text = table[strings + offset : strings + offset + length]
        if kind in names:
            text = names[kind].encode("mac_roman" if platform == 1 else "utf-16-be")
        records.append(struct.pack(">6H", platform, encoding, language, kind, len(text), len(heap)))
        heap += text
    return struct.pack(">3H", 0, count, 6 + 12 * count) + b"".join(records) + heap


def main(source: str, target: str, family: str, style: str) -> None:
    font = open(source, "rb").read()
    count = struct.unpack_from(">H", font, 4)[0]
    tables = {}
    for index in range(count):
        tag, _, offset, length = struct.unpack_from(">4s3I", font, 12 + 16 * index)
        tables[tag] = font[offset : offset + length]
    tables[b"name"] = renamed(tables[b"name"], family, style)
    head = tables[b"head"]
    tables[b"head"] = head[:8] + b"\0\0\0\0" + head[12:]
    directory, body, start = b"", b"", 12 + 16 * count
    for tag in sorted(tables):
        data = tables[tag]
        directory += struct.pack(">4s3I", tag, checksum(data), start + len(body), len(data))
        body += data + b"\0" * (-len(data) % 4)
    whole = bytearray(font[:12] + directory + body)
    # The whole file must sum to this number (OpenType specification, head.checksumAdjustment).
    adjustment = (0xB1B0AFBA - checksum(bytes(whole))) & 0xFFFFFFFF
    for index, tag in enumerate(sorted(tables)):
        if tag == b"head":
            place = struct.unpack_from(">I", directory, 16 * index + 8)[0] + 8
            struct.pack_into(">I", whole, place, adjustment)
    open(target, "wb").write(bytes(whole))


if __name__ == "__main__":
    main(*sys.argv[1:5])
