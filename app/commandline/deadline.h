/// A stop token that stops by itself: no call may hang.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <chrono>
#include <condition_variable>
#include <functional>
#include <mutex>
#include <stop_token>
#include <thread>

namespace ohmwright {

/// Asks for a stop once the time is up, and calls `whenOver` on its own thread; ends quietly when destroyed before.
class Deadline {
public:
    explicit Deadline(std::chrono::milliseconds time, std::function<void()> whenOver = {});

    [[nodiscard]] std::stop_token token() const { return m_work.get_token(); }
    [[nodiscard]] bool isOver() const { return m_work.stop_requested(); }

private:
    std::stop_source m_work;
    std::mutex m_mutex;
    std::condition_variable_any m_waiting;
    std::jthread m_clock;  ///< Last: it uses all of the above until it is joined.
};

}  // namespace ohmwright
