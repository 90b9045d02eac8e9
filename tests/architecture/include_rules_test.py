#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The include rules find what they are there to find, in made-up trees."""
import pathlib
import subprocess
import sys
import tempfile
import unittest

import include_rules

ALLOWED = [
    ("core/circuit/a.cpp", '"core/base/result.h"'),
    ("core/circuit/a.cpp", '"core/circuit/circuit.h"'),
    ("core/circuit/a.cpp", "<vector>"),
    ("core/solve/a.cpp", '"core/devices/diode.h"'),
    ("core/solve/a.cpp", "<Eigen/Dense>"),
    ("core/measure/a.cpp", '"core/solve/bias.h"'),
    ("core/plan/a.cpp", '"core/parts/drawer.h"'),
    ("core/files/a.cpp", '"core/plan/job.h"'),
    ("core/files/a.cpp", "<nlohmann/json.hpp>"),
    ("app/map/a.cpp", '"app/look/theme.h"'),
    ("app/map/a.cpp", '"app/document/job_document.h"'),
    ("app/map/a.cpp", '"core/plan/job.h"'),
    ("app/map/a.cpp", "<QWidget>"),
    ("app/map/a.cpp", '"a.moc"'),
    ("app/papers/a.cpp", '"app/look/painters.h"'),
    ("app/window/a.cpp", '"app/map/stage_map.h"'),
    ("app/commandline/a.cpp", '"app/papers/bench_sheet.h"'),
    ("app/commandline/a.cpp", "<CLI/CLI.hpp>"),
]
FORBIDDEN = [
    ("core/base/a.cpp", '"core/circuit/circuit.h"'),
    ("core/circuit/a.h", '"core/solve/bias.h"'),
    ("core/devices/a.cpp", '"core/solve/bias.h"'),
    ("core/parts/a.cpp", '"core/plan/job.h"'),
    ("core/measure/a.cpp", '"core/plan/job.h"'),
    ("core/plan/a.cpp", '"core/files/job_file.h"'),
    ("core/measure/a.cpp", '"app/look/theme.h"'),
    ("core/measure/a.cpp", "<QString>"),
    ("core/measure/a.cpp", "<QtCore/QString>"),
    ("core/measure/a.cpp", "<qcustomplot.h>"),
    ("core/plan/a.cpp", "<nlohmann/json.hpp>"),
    ("core/plan/a.cpp", "<Eigen/Dense>"),
    ("app/document/a.cpp", "<nlohmann/json.hpp>"),
    ("app/map/a.cpp", "<CLI/CLI.hpp>"),
    ("app/map/a.cpp", '"app/curves/curve_view.h"'),
    ("app/map/a.cpp", '"app/window/main_window.h"'),
    ("app/look/a.h", '"app/document/selection.h"'),
    ("app/document/a.h", '"app/background/solver_service.h"'),
    ("app/background/a.h", '"app/look/theme.h"'),
    ("app/papers/a.cpp", '"app/curves/curve_view.h"'),
    ("app/papers/a.cpp", '"app/map/stage_map.h"'),
    ("core/circuit/a.cpp", '"circuit.h"'),
    ("core/circuit/a.cpp", '"../base/result.h"'),
    ("core/circuit/a.cpp", '"core/helpers/a.h"'),
    ("core/helpers/a.cpp", "<vector>"),
    ("app/a.cpp", "<vector>"),
]


def made_up_tree(root, path, header):
    file = pathlib.Path(root, path)
    file.parent.mkdir(parents=True)
    file.write_text(f"// one file\n#include {header}\n", encoding="utf-8")


class IncludeRules(unittest.TestCase):
    def test_what_is_allowed_passes(self):
        for path, header in ALLOWED:
            with self.subTest(path=path, header=header), tempfile.TemporaryDirectory() as root:
                made_up_tree(root, path, header)
                self.assertEqual(include_rules.violations(root), [])

    def test_what_is_forbidden_is_found_and_named(self):
        for path, header in FORBIDDEN:
            with self.subTest(path=path, header=header), tempfile.TemporaryDirectory() as root:
                made_up_tree(root, path, header)
                found = include_rules.violations(root)
                self.assertEqual(len(found), 1)
                self.assertTrue(found[0].startswith(path), found[0])

    def test_a_wrong_tree_makes_the_program_fail(self):
        with tempfile.TemporaryDirectory() as root:
            made_up_tree(root, "core/base/a.cpp", "<QString>")
            run = subprocess.run([sys.executable, include_rules.__file__, root], capture_output=True, text=True, check=False)
            self.assertEqual(run.returncode, 1)
            self.assertIn("core/base/a.cpp:2: QString", run.stdout)


if __name__ == "__main__":
    unittest.main()
