/// How background work shares the processors with the window.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace ohmwright {

/// A hand that turns a knob waits for `soon`; whoever reads a paper waits for `behind`.
enum class Pace {
    soon,    ///< Beside the window, as the machine deals it out.
    behind,  ///< After the window and what is asked for soon, whenever all of them want a processor.
};

/// For the thread that calls it, and for threads that it starts, from now on.
void takePace(Pace pace);

}  // namespace ohmwright
