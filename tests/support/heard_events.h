/// What is sent to who listens to the window, caught at the house's own door: without a screen reader the toolkit
/// passes nothing on.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/look/spoken_events.h"

#include <QString>

#include <vector>

namespace ohmwright::test {

struct HeardEvent {
    QAccessible::Event type = QAccessible::InvalidEvent;
    QString name;         ///< Of what it is about, as it is called at that moment.
    QString description;  ///< Likewise.
    double value = 0.0;   ///< Of a change of value.
};

/// Listens while it lives.
class HeardEvents {
public:
    HeardEvents() {
        setHearer([this](QAccessibleEvent& event) { take(event); });
    }
    HeardEvents(const HeardEvents&) = delete;
    HeardEvents& operator=(const HeardEvents&) = delete;
    ~HeardEvents() { setHearer({}); }

    /// Of one type, in the order they were sent.
    [[nodiscard]] std::vector<HeardEvent> of(QAccessible::Event type) const {
        std::vector<HeardEvent> found;
        for (const HeardEvent& event : m_events) {
            if (event.type == type) {
                found.push_back(event);
            }
        }
        return found;
    }
    void forget() { m_events.clear(); }

private:
    void take(QAccessibleEvent& event) {
        QAccessibleInterface* about = event.accessibleInterface();
        HeardEvent heard{event.type(), {}, {}, 0.0};
        if (about != nullptr) {
            heard.name = about->text(QAccessible::Name);
            heard.description = about->text(QAccessible::Description);
        }
        if (event.type() == QAccessible::ValueChanged) {
            heard.value = static_cast<QAccessibleValueChangeEvent&>(event).value().toDouble();
        }
        m_events.push_back(heard);
    }

    std::vector<HeardEvent> m_events;
};

}  // namespace ohmwright::test
