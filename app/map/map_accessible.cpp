// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/map_accessible.h"

#include "app/look/spoken_events.h"
#include "app/map/map_view.h"

#include <QAccessible>
#include <QAccessibleWidget>

#include <algorithm>

namespace ohmwright {
namespace {

/// One part; looks everything up in the view, so that it holds no state of its own.
class PartAccessible : public QAccessibleInterface,
                       public QAccessibleActionInterface,
                       public QAccessibleValueInterface {
public:
    PartAccessible(MapView& view, PartId part) : m_view(&view), m_part(std::move(part)) {}

    [[nodiscard]] const PartId& part() const { return m_part; }

    [[nodiscard]] bool isValid() const override { return m_view && spoken() != nullptr; }
    [[nodiscard]] QObject* object() const override { return nullptr; }
    [[nodiscard]] QAccessibleInterface* parent() const override {
        return QAccessible::queryAccessibleInterface(m_view);
    }
    [[nodiscard]] QAccessibleInterface* child(int /*index*/) const override { return nullptr; }
    [[nodiscard]] QAccessibleInterface* childAt(int /*x*/, int /*y*/) const override { return nullptr; }
    [[nodiscard]] int childCount() const override { return 0; }
    [[nodiscard]] int indexOfChild(const QAccessibleInterface* /*child*/) const override { return -1; }
    [[nodiscard]] QString text(QAccessible::Text kind) const override {
        const SpokenPart* part = isValid() ? spoken() : nullptr;
        if (!part) {
            return {};
        }
        return kind == QAccessible::Name          ? part->name
               : kind == QAccessible::Value       ? part->value
               : kind == QAccessible::Description ? part->legs
                                                  : QString();
    }
    [[nodiscard]] void* interface_cast(QAccessible::InterfaceType type) override {
        if (type == QAccessible::ActionInterface) {
            return static_cast<QAccessibleActionInterface*>(this);
        }
        return type == QAccessible::ValueInterface ? static_cast<QAccessibleValueInterface*>(this) : nullptr;
    }

    [[nodiscard]] QStringList actionNames() const override {
        QStringList names{pressAction(), showMenuAction()};
        if (isValid() && spoken()->steps) {
            names << increaseAction() << decreaseAction();
        }
        return names;
    }
    [[nodiscard]] QString localizedActionDescription(const QString& action) const override {
        return action == increaseAction()   ? MapView::tr("Takes the next value of the drawer")
               : action == decreaseAction() ? MapView::tr("Takes the value before it of the drawer")
               : action == pressAction()    ? MapView::tr("Selects the part")
               : action == showMenuAction() ? MapView::tr("Says what can be planned with the part")
                                            : QString();
    }
    void doAction(const QString& action) override {
        if (!isValid() || !actionNames().contains(action)) {
            return;
        }
        if (action == pressAction()) {
            m_view->choosePart(m_part);
        } else if (action == showMenuAction()) {
            m_view->openMenuOf(m_part);
        } else {
            m_view->stepPart(m_part, action == increaseAction() ? 1 : -1);
        }
    }
    [[nodiscard]] QStringList keyBindingsForAction(const QString& action) const override {
        return action == increaseAction()   ? QStringList{"PgUp"}
               : action == decreaseAction() ? QStringList{"PgDown"}
               : action == showMenuAction() ? QStringList{"Shift+F10"}
                                            : QStringList();
    }

    [[nodiscard]] QVariant currentValue() const override { return isValid() ? spoken()->now : 0.0; }
    /// A part has the values that a drawer has: a larger number takes the next one, a smaller the one before.
    void setCurrentValue(const QVariant& value) override {
        const double asked = value.toDouble();
        if (isValid() && spoken()->steps && asked != spoken()->now) {
            m_view->stepPart(m_part, asked > spoken()->now ? 1 : -1);
        }
    }
    [[nodiscard]] QVariant maximumValue() const override { return {}; }
    [[nodiscard]] QVariant minimumValue() const override { return {}; }
    [[nodiscard]] QVariant minimumStepSize() const override { return {}; }

    void setText(QAccessible::Text /*kind*/, const QString& /*text*/) override {}
    [[nodiscard]] QRect rect() const override { return isValid() ? m_view->screenBox(m_part) : QRect(); }
    [[nodiscard]] QAccessible::Role role() const override { return QAccessible::ListItem; }
    [[nodiscard]] QAccessible::State state() const override {
        QAccessible::State state;
        state.selectable = true;
        state.focusable = true;
        state.selected = isValid() && m_view->selected() == m_part;
        state.focused = state.selected && m_view->hasFocus();
        state.invalid = !isValid();
        return state;
    }

private:
    [[nodiscard]] const SpokenPart* spoken() const {
        const auto& parts = m_view->parts();
        const auto found =
            std::find_if(parts.begin(), parts.end(), [this](const SpokenPart& part) { return part.id == m_part; });
        return found == parts.end() ? nullptr : &*found;
    }

    QPointer<MapView> m_view;
    PartId m_part;
};

class MapAccessible : public QAccessibleWidget {
public:
    explicit MapAccessible(MapView& view)
        : QAccessibleWidget(&view, QAccessible::List, QObject::tr("Stage map")), m_view(&view) {}
    ~MapAccessible() override { forget(); }

    [[nodiscard]] int childCount() const override { return m_view ? static_cast<int>(m_view->parts().size()) : 0; }
    [[nodiscard]] QAccessibleInterface* child(int index) const override {
        if (index < 0 || index >= childCount()) {
            return nullptr;
        }
        while (static_cast<int>(m_children.size()) < childCount()) {
            const PartId& part = m_view->parts()[m_children.size()].id;
            m_children.push_back(QAccessible::registerAccessibleInterface(new PartAccessible(*m_view, part)));
        }
        return QAccessible::accessibleInterface(m_children[static_cast<std::size_t>(index)]);
    }
    [[nodiscard]] int indexOfChild(const QAccessibleInterface* child) const override {
        const auto* part = dynamic_cast<const PartAccessible*>(child);
        return part ? indexOf(part->part()) : -1;
    }
    [[nodiscard]] QAccessibleInterface* childAt(int x, int y) const override {
        if (!m_view) {
            return nullptr;
        }
        const auto part = m_view->partUnder(m_view->viewport()->mapFromGlobal(QPoint(x, y)));
        return part ? child(indexOf(*part)) : nullptr;
    }
    [[nodiscard]] QAccessibleInterface* focusChild() const override {
        return m_view ? child(indexOf(m_view->selected())) : nullptr;
    }

    void forget() {
        for (const QAccessible::Id id : m_children) {
            QAccessible::deleteAccessibleInterface(id);
        }
        m_children.clear();
    }

private:
    [[nodiscard]] int indexOf(const PartId& id) const {
        const auto& parts = m_view->parts();
        const auto found =
            std::find_if(parts.begin(), parts.end(), [&](const SpokenPart& part) { return part.id == id; });
        return found == parts.end() ? -1 : static_cast<int>(found - parts.begin());
    }

    QPointer<MapView> m_view;
    mutable std::vector<QAccessible::Id> m_children;
};

QAccessibleInterface* makeMapAccessible(const QString& /*className*/, QObject* object) {
    auto* view = qobject_cast<MapView*>(object);
    return view ? new MapAccessible(*view) : nullptr;
}

}  // namespace

void installMapAccessibility() {
    static const bool isInstalled = [] {
        QAccessible::installFactory(makeMapAccessible);
        return true;
    }();
    Q_UNUSED(isInstalled)
}

void announceSelected(MapView& view) {
    if (!isListenedTo()) {
        return;
    }
    const auto& parts = view.parts();
    const auto found = std::find_if(parts.begin(), parts.end(),
                                    [&view](const SpokenPart& part) { return part.id == view.selected(); });
    if (found != parts.end()) {
        QAccessibleEvent event(&view, QAccessible::Focus);
        event.setChild(static_cast<int>(found - parts.begin()));
        tellListeners(event);
    }
}

void announceChanges(MapView& view, const std::vector<SpokenPart>& before) {
    if (!isListenedTo()) {
        return;
    }
    for (std::size_t i = 0; i < before.size(); ++i) {
        const SpokenPart& now = view.parts()[i];
        if (now.name != before[i].name) {
            QAccessibleEvent named(&view, QAccessible::NameChanged);
            named.setChild(static_cast<int>(i));
            tellListeners(named);
        }
        if (now.value != before[i].value) {
            QAccessibleValueChangeEvent changed(&view, now.now);
            changed.setChild(static_cast<int>(i));
            tellListeners(changed);
        }
    }
}

void forgetSpokenParts(MapView& view) {
    // Without a screen reader no interface exists, and none is made here.
    if (isListenedTo()) {
        if (auto* map = dynamic_cast<MapAccessible*>(QAccessible::queryAccessibleInterface(&view))) {
            map->forget();
        }
    }
}

}  // namespace ohmwright
