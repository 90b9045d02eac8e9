#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The layout rules find what they are there to find, in made-up trees."""
import pathlib
import tempfile
import unittest

import layout


def sound_tree(root):
    for name in layout.TOP:
        path = pathlib.Path(root, name)
        path.touch() if "." in name or name == "LICENSE" else path.mkdir()
    write(root, "core/a.cpp", f"// {layout.LICENCE}\n")


def write(root, name, text):
    pathlib.Path(root, name).write_text(text, encoding="utf-8")


class Layout(unittest.TestCase):
    def setUp(self):
        self.folder = tempfile.TemporaryDirectory()
        self.addCleanup(self.folder.cleanup)
        self.root = self.folder.name
        sound_tree(self.root)

    def test_a_sound_tree_passes(self):
        for aside in (".ci", "build", "build-tests"):
            pathlib.Path(self.root, aside).mkdir()
        self.assertEqual(layout.faults(self.root), [])

    def test_a_stray_entry_is_named(self):
        pathlib.Path(self.root, "scripts").mkdir()
        self.assertEqual(layout.faults(self.root), ["scripts: does not belong at the top level"])

    def test_a_missing_entry_is_named(self):
        pathlib.Path(self.root, "LICENSE").unlink()
        self.assertEqual(layout.faults(self.root), ["LICENSE: is missing at the top level"])

    def test_a_source_without_licence_is_named(self):
        write(self.root, "core/a.cpp", "int a;\n")
        self.assertEqual(layout.faults(self.root), ["core/a.cpp: names no licence"])

    def test_what_is_left_for_later_is_named(self):
        for word in ("TO" "DO", "FIX" "ME", "GTEST_" "SKIP", "DISABLED_" "Case"):
            write(self.root, "core/a.cpp", f"// {layout.LICENCE}\n// {word}\n")
            self.assertEqual(len(layout.faults(self.root)), 1, word)


if __name__ == "__main__":
    unittest.main()
