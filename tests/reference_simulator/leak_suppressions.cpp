/// What libngspice leaves allocated at its end is not ours to mend.
// SPDX-License-Identifier: GPL-3.0-or-later

extern "C" {
/// Read by the leak checker of the sanitizers, where there is one.
const char* __lsan_default_suppressions();
const char* __lsan_default_suppressions() {
    return "leak:libngspice\n";
}
}
