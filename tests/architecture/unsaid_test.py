#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The check of texts finds what no catalogue could translate, in made-up trees."""
import pathlib
import sys
import tempfile
import unittest

import unsaid


class Unsaid(unittest.TestCase):
    def setUp(self):
        self.folder = tempfile.TemporaryDirectory()
        self.addCleanup(self.folder.cleanup)

    def faults_of(self, source, listed=""):
        for name, text in {"core/plan/mod.cpp": source, "app/map/map.cpp": "", unsaid.LIST: listed}.items():
            path = pathlib.Path(self.folder.name, name)
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, encoding="utf-8")
        return unsaid.faults(self.folder.name)

    def test_what_is_said_is_sound(self):
        self.assertEqual(self.faults_of('auto a = said("There is no part %1.", part);'), [])
        self.assertEqual(self.faults_of('Row row{"gain", toSay("the highest gain"), 1};'), [])

    def test_a_plain_sentence_is_found_with_its_line(self):
        found = self.faults_of('int x;\nauto a = wrong("There is no such part.");')
        self.assertEqual(len(found), 1)
        self.assertIn("core/plan/mod.cpp:2:", found[0])

    def test_a_piece_to_be_glued_is_found(self):
        self.assertEqual(len(self.faults_of('auto a = name + " is not there";')), 1)

    def test_a_listed_identity_is_let_through_and_a_stale_line_is_not(self):
        self.assertEqual(self.faults_of('Id id{"former ground"};', "core/plan/mod.cpp: former ground\n"), [])
        self.assertEqual(len(self.faults_of("int x;", "core/plan/mod.cpp: former ground\n")), 1)

    def test_comments_are_no_texts(self):
        self.assertEqual(self.faults_of('// "There is no such part."\n/* "nor such a one" */'), [])


if __name__ == "__main__":
    sys.exit(not unittest.main(exit=False).result.wasSuccessful())
