// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/offscreen.h"

#include "app/look/theme.h"

#include <QApplication>

namespace ohmwright {

Offscreen::Offscreen() {
    if (QApplication::instance() != nullptr) return;
    qputenv("QT_QPA_PLATFORM", "offscreen");
    // Notes on the desktop's own set-up are not for a caller without one.
    qInstallMessageHandler([](QtMsgType, const QMessageLogContext&, const QString&) {});
    m_application = std::make_unique<QApplication>(m_argumentCount, m_arguments.data());
    Theme::install();
}

Offscreen::~Offscreen() = default;

}  // namespace ohmwright
