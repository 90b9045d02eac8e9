/// Items of a scene that stay as long as what they show stays.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QGraphicsScene>

#include <cstddef>
#include <vector>

namespace ohmwright {

/// One item for each thing shown. An item that is made anew is painted anew, with the halo of every letter; most of a
/// map stays as it is when one value changes.
///
/// REQUIRES: the scene outlives it or is cleared together with it (forget()).
template <class Shown, class Item>
class KeptItems {
public:
    /// @param make  gives a new item for a thing; the scene takes it.
    template <class Make>
    void show(QGraphicsScene& scene, const std::vector<Shown>& wanted, const Make& make) {
        for (std::size_t i = wanted.size(); i < m_items.size(); ++i) {
            remove(scene, m_items[i]);
        }
        m_items.resize(wanted.size(), nullptr);
        for (std::size_t i = 0; i < wanted.size(); ++i) {
            if (m_items[i] && m_shown[i] == wanted[i]) {
                continue;
            }
            remove(scene, m_items[i]);
            m_items[i] = make(wanted[i]);
            scene.addItem(m_items[i]);
        }
        m_shown = wanted;
    }

    [[nodiscard]] const std::vector<Item*>& items() const { return m_items; }
    /// The scene has thrown them all away.
    void forget() {
        m_items.clear();
        m_shown.clear();
    }

private:
    /// Taken out first: a scene cannot ask an item that is being destroyed where it was, and would paint all of itself.
    static void remove(QGraphicsScene& scene, Item* item) {
        if (item) {
            scene.removeItem(item);
            delete item;
        }
    }

    std::vector<Item*> m_items;
    std::vector<Shown> m_shown;
};

}  // namespace ohmwright
