// Holds the precompiled Qt headers of app/; see app/CMakeLists.txt.
// SPDX-License-Identifier: GPL-3.0-or-later
#include <QWidget>
