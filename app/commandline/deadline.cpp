// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/deadline.h"

namespace ohmwright {

Deadline::Deadline(std::chrono::milliseconds time)
    : m_clock([this, time](const std::stop_token& notNeeded) {
          std::unique_lock lock(m_mutex);
          const bool ended =
              m_waiting.wait_for(lock, notNeeded, time, [&notNeeded] { return notNeeded.stop_requested(); });
          if (!ended) m_work.request_stop();
      }) {}

}  // namespace ohmwright
