// The translation unit that the precompiled headers of the tests belong to.
// SPDX-License-Identifier: GPL-3.0-or-later
