/// The words of a page in the order of reading: for screen readers, and for whoever copies a line.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>

namespace ohmwright {

class PageFlow;

/// What stands on the page, line under line, two spaces between the columns. REQUIRES: as PageFlow::paintPage.
QString textOfPage(const PageFlow& flow, int page);

/// All pages, an empty line between them.
QString textOf(const PageFlow& flow);

}  // namespace ohmwright
