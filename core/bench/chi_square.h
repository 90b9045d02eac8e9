/// How large a sum of squares chance makes.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace ohmwright {

/// The value that the sum of the squares of `count` independent standard deviations stays under in 95 % of cases.
/// REQUIRES: count >= 1. Within 0.1 % of the published table.
/// Source: NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.4 (table of upper critical values, 0.05), up to 20;
/// above it Wilson and Hilferty, Proc. Nat. Acad. Sci. 17 (1931) 684.
double chiSquare95(int count);

}  // namespace ohmwright
