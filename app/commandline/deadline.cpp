// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/deadline.h"

#include <utility>

namespace ohmwright {

Deadline::Deadline(std::chrono::milliseconds time, std::function<void()> whenOver)
    : m_clock([this, time, whenOver = std::move(whenOver)](const std::stop_token& notNeeded) {
          std::unique_lock lock(m_mutex);
          const auto ended = [&notNeeded] { return notNeeded.stop_requested(); };
          if (m_waiting.wait_for(lock, notNeeded, time, ended)) return;
          m_work.request_stop();
          if (whenOver) whenOver();
      }) {}

}  // namespace ohmwright
