#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The check of the catalogues finds what it is there to find, in made-up trees."""
import pathlib
import subprocess
import sys
import tempfile
import unittest

import catalogue

HEADER = 'msgid ""\nmsgstr ""\n"Content-Type: text/plain; charset=UTF-8\\n"\n\n'
SOUND = 'msgid "%1 sits at %2 V."\nmsgstr "%2 V liegen an %1."\n'


class Catalogue(unittest.TestCase):
    def setUp(self):
        self.folder = tempfile.TemporaryDirectory()
        self.addCleanup(self.folder.cleanup)
        self.root = self.folder.name
        self.write("core/solve/bias.cpp", 'auto a = said("%1 sits at %2 V.", part, volts);\n')

    def write(self, name, text):
        path = pathlib.Path(self.root, name)
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")

    def faults_with(self, text, is_complete=False):
        self.write("resources/languages/de.po", HEADER + text)
        return catalogue.faults(self.root, is_complete)

    def test_a_sound_catalogue_passes(self):
        self.assertEqual(self.faults_with(SOUND), [])

    def test_a_text_is_found_in_whichever_way_it_is_said(self):
        self.write(
            "app/map/a.cpp",
            '// no tr("comment")\nauto a = tr("tr"); auto b = toSay("to " "say");\n'
            'auto c = QCoreApplication::translate("Class", "translate"); auto d = f("nothing");\n',
        )
        self.write("core/base/a.h", 'inline auto e = said("said: \\"%1\\"\\n", name);\n')
        self.write("app/commandline/a.cpp", 'auto f = tr("English alone");\n')
        self.assertEqual(
            catalogue.spoken(self.root), {"%1 sits at %2 V.", "tr", "to say", "translate", 'said: "%1"\n'}
        )

    def test_a_place_that_is_lost_doubled_or_made_up_is_named(self):
        for german in ("Es liegen %2 V an.", "%1 und %1 auf %2 V", "%1 auf %2 V, %3"):
            self.assertEqual(
                self.faults_with(f'msgid "%1 sits at %2 V."\nmsgstr "{german}"\n'),
                [f'de.po:5: "%1 sits at %2 V." has other places than its translation "{german}"'],
            )

    def test_a_text_of_two_meanings_has_a_translation_of_each(self):
        self.write(
            "app/map/a.cpp",
            'auto a = tr("%1 to %2"); auto b = tr("%1 to %2", "a change");\n'
            'auto c = saidMeaning("two places", "%1 to %2", {red, black});\n',
        )
        meanings = [("", "%1 bis %2"), ("a change", "von %1 auf %2"), ("two places", "%1 gegen %2")]
        texts = [
            (f'msgctxt "{meaning}"\n' if meaning else "") + f'msgid "%1 to %2"\nmsgstr "{german}"\n'
            for meaning, german in meanings
        ]
        self.assertEqual(self.faults_with("\n".join([SOUND, *texts]), is_complete=True), [])
        self.assertEqual(
            self.faults_with("\n".join([SOUND, *texts[:2]]), is_complete=True),
            ['de.po: "%1 to %2 [two places]" has no translation'],
        )
        self.assertEqual(
            self.faults_with("\n".join([SOUND, *texts, texts[1]]), is_complete=True),
            ['de.po:19: "%1 to %2 [a change]" stands in line 11 already'],
        )

    def test_an_empty_translation_is_named(self):
        self.assertEqual(
            self.faults_with('msgid "%1 sits at %2 V."\nmsgstr ""\n'),
            ['de.po:5: "%1 sits at %2 V." has no translation'],
        )

    def test_a_translation_on_several_lines_is_read_whole(self):
        self.assertEqual(self.faults_with('msgid ""\n"%1 sits "\n"at %2 V."\nmsgstr ""\n"%2 V "\n"liegen an %1."\n'), [])

    def test_a_fuzzy_translation_is_named(self):
        found = ['de.po:6: "%1 sits at %2 V." is marked fuzzy']
        self.assertEqual(self.faults_with("#, fuzzy\n" + SOUND), found)
        self.assertEqual(self.faults_with('#, c++-format, fuzzy\n' + SOUND), found)

    def test_a_mark_of_one_translation_is_none_of_the_next(self):
        self.write("core/solve/a.cpp", 'auto b = said("ground");\n')
        found = self.faults_with("#, fuzzy\n" + SOUND + '\nmsgid "ground"\nmsgstr "Masse"\n')
        self.assertEqual(found, ['de.po:6: "%1 sits at %2 V." is marked fuzzy'])

    def test_a_second_translation_of_a_text_is_named(self):
        self.assertEqual(
            self.faults_with(SOUND + "\n" + SOUND), ['de.po:8: "%1 sits at %2 V." stands in line 5 already']
        )

    def test_what_is_said_nowhere_any_more_is_named(self):
        for mark in ("", "#~ "):
            self.assertEqual(
                self.faults_with(f'{SOUND}\n{mark}msgid "old"\n{mark}msgstr "alt"\n'),
                ['de.po:8: "old" is said nowhere any more'],
            )

    def test_what_has_no_translation_yet_is_named_when_asked_for(self):
        self.write("core/solve/a.cpp", 'auto b = said("ground");\n')
        self.assertEqual(self.faults_with(SOUND), [])
        self.assertEqual(self.faults_with(SOUND, is_complete=True), ['de.po: "ground" has no translation'])

    def test_a_wrong_catalogue_makes_the_program_fail(self):
        self.write("resources/languages/de.po", HEADER)
        for options, status in (([], 0), (["--complete"], 1)):
            run = subprocess.run(
                [sys.executable, catalogue.__file__, self.root, *options], capture_output=True, text=True, check=False
            )
            self.assertEqual(run.returncode, status, run.stdout)


if __name__ == "__main__":
    unittest.main()
