// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/mods/mod_menu.h"

#include "app/document/job_document.h"
#include "app/look/said_text.h"
#include "app/look/text.h"
#include "core/base/value_text.h"
#include "core/plan/apply.h"
#include "core/plan/edits.h"

#include <QMenu>

#include <algorithm>
#include <utility>

namespace ohmwright {

namespace {

QString nameOf(const Part& part) {
    return text(displayName(part));
}

/// "pin 3" where it is printed, "anode" where the pin has a sense, else "leg 1".
QString legName(const Part& part, int pin) {
    const auto place = static_cast<std::size_t>(pin);
    if (place < part.pins.size() && !part.pins[place].empty()) {
        return QObject::tr("pin %1").arg(text(part.pins[place]));
    }
    const QString name = saidText(pinName(part.kind, pin));
    return name.size() == 1 && name[0].isDigit() ? QObject::tr("leg %1").arg(name) : name;
}

/// Pairs of pins worth joining. An op-amp's supply pins are left out.
std::vector<std::pair<int, int>> pinPairs(const Part& part) {
    constexpr int signalPinsOfOpamp = 3;
    const int pins = part.kind == PartKind::opamp ? signalPinsOfOpamp : pinCount(part.kind);
    std::vector<std::pair<int, int>> pairs;
    for (int first = 0; first < pins; ++first) {
        for (int second = first + 1; second < pins; ++second) {
            pairs.emplace_back(first, second);
        }
    }
    return pairs;
}

QString capitalised(QString word) {
    word[0] = word[0].toUpper();
    return word;
}

/// Why a part is no place for a mod, or nothing.
QString whyNotChanged(const Circuit& circuit, const Part& part) {
    if (part.id == circuit.ports.source) {
        return QObject::tr("The pick level is set in the knob row");
    }
    if (part.id == circuit.ports.battery) {
        return QObject::tr("The battery is set in the knob row");
    }
    if (part.id == circuit.ports.load) {
        return QObject::tr("The next box is set in the knob row");
    }
    return {};
}

void addReason(QMenu& menu, const QString& reason) {
    menu.addAction(reason)->setEnabled(false);
}

}  // namespace

Circuit circuitNow(const Job& job) {
    Result<Circuit> now = nowCircuit(job);
    if (!now) {
        return job.stock;
    }
    return std::move(*now);
}

ModMenu::ModMenu(JobDocument& document, QObject* parent) : QObject(parent), m_document(document) {}

void ModMenu::setModels(std::vector<Model> models) {
    m_models = std::move(models);
}

std::vector<Model> ModMenu::modelsOfKind(PartKind kind) const {
    std::vector<Model> found;
    for (const std::vector<Model>* source : {&m_document.job()->stock.models, &std::as_const(m_models)}) {
        for (const Model& model : *source) {
            const bool isKnown =
                std::any_of(found.begin(), found.end(), [&](const Model& other) { return other.name == model.name; });
            if (model.kind == kind && !isKnown) {
                found.push_back(model);
            }
        }
    }
    return found;
}

QMenu* ModMenu::build(const PartId& partId, QWidget* parent) const {
    auto* menu = new QMenu(parent);
    menu->setAttribute(Qt::WA_DeleteOnClose);
    const Circuit circuit = circuitNow(*m_document.job());
    const Part* part = findPart(circuit, partId);
    if (!part) {
        addReason(*menu, tr("Select a part first"));
        return menu;
    }
    if (const QString reason = whyNotChanged(circuit, *part); !reason.isEmpty()) {
        addReason(*menu, reason);
        return menu;
    }
    addSwap(*menu, *part);
    addSeries(*menu, *part);
    addAcross(*menu, *part);
    addLiftAndBridge(*menu, *part);
    return menu;
}

void ModMenu::fit(const Change& change, const QString& editText) const {
    m_document.edit(addMod(*m_document.job(), change), editText);
}

void ModMenu::addSwap(QMenu& menu, const Part& part) const {
    if (hasValue(part.kind)) {
        const ValueQuestion question{
            tr("%1: new value").arg(nameOf(part)), unitOf(part.kind),
            text(formatPartValue({part.value, unitOf(part.kind)})),
            [id = part.id](const Job& job, double value) { return setPartValue(job, id, value); },
            tr("Change %1 to %2").arg(nameOf(part))};
        connect(menu.addAction(tr("Swap value…")), &QAction::triggered, this,
                [this, question] { emit valueAsked(question); });
        return;
    }
    const std::vector<Model> models = modelsOfKind(part.kind);
    if (models.empty()) {
        return;
    }
    QMenu* types = menu.addMenu(tr("Swap type"));
    for (const Model& model : models) {
        QAction* action = types->addAction(text(model.name));
        if (model.name == part.model) {
            action->setText(tr("%1, fitted now").arg(text(model.name)));
            action->setEnabled(false);
        }
        connect(action, &QAction::triggered, this, [this, model, id = part.id, name = nameOf(part)] {
            m_document.edit(setPartType(*m_document.job(), id, model),
                            tr("Change %1 to %2").arg(name, text(model.name)));
        });
    }
}

void ModMenu::addNewParts(QMenu& menu, const QString& place,
                          const std::function<Change(const NewPart&, bool)>& change) const {
    for (const PartKind kind : {PartKind::resistor, PartKind::capacitor, PartKind::inductor}) {
        const QString kindWord = saidText(kindName(kind));
        const auto edit = [change, kind](const Job& job, double value) {
            return addMod(job, change(NewPart{nextFreeReference(job, kind), kind, value, {}, 0.0}, false));
        };
        const ValueQuestion question{QString("%1: %2").arg(capitalised(place), kindWord),
                                     unitOf(kind),
                                     {},
                                     edit,
                                     tr("Add %1 %2, %3").arg(kindWord, place)};
        connect(menu.addAction(capitalised(kindWord) + "…"), &QAction::triggered, this,
                [this, question] { emit valueAsked(question); });
    }
    for (const Model& model : modelsOfKind(PartKind::diode)) {
        for (const bool reversed : {false, true}) {
            const QString words = reversed ? tr("%1, turned round").arg(text(model.name)) : text(model.name);
            connect(menu.addAction(tr("Diode %1").arg(words)), &QAction::triggered, this, [=, this] {
                const std::string reference = nextFreeReference(*m_document.job(), PartKind::diode);
                fit(change(NewPart{reference, PartKind::diode, 0.0, model, 0.0}, reversed),
                    tr("Add %1 %2").arg(words, place));
            });
        }
    }
}

void ModMenu::addSeries(QMenu& menu, const Part& part) const {
    QMenu* series = menu.addMenu(tr("Add in series"));
    const int pins = pinCount(part.kind);
    const auto addAtPin = [&](QMenu& target, int pin) {
        const QString where = pins == 2 ? tr("in series with %1").arg(nameOf(part))
                                        : tr("in series at %1 of %2").arg(legName(part, pin), nameOf(part));
        addNewParts(target, where, [id = part.id, pin](const NewPart& fitted, bool reversed) -> Change {
            return AddInSeries{id, pin, fitted, reversed};
        });
    };
    if (pins == 2) {
        addAtPin(*series, 1);
        return;
    }
    for (int pin = 0; pin < pins; ++pin) {
        addAtPin(*series->addMenu(tr("at %1").arg(legName(part, pin))), pin);
    }
}

void ModMenu::addAcross(QMenu& menu, const Part& part) const {
    QMenu* across = menu.addMenu(tr("Add across"));
    const auto pairs = pinPairs(part);
    for (const auto& [first, second] : pairs) {
        const QString legs = tr("%1 to %2", "two places").arg(legName(part, first), legName(part, second));
        const QString where =
            pairs.size() == 1 ? tr("across %1").arg(nameOf(part)) : tr("from %1 at %2").arg(legs, nameOf(part));
        addNewParts(pairs.size() == 1 ? *across : *across->addMenu(legs), where,
                    [id = part.id, pinA = first, pinB = second](const NewPart& fitted, bool reversed) -> Change {
                        return AddAcross{id, pinA, pinB, fitted, reversed};
                    });
    }
}

void ModMenu::addLiftAndBridge(QMenu& menu, const Part& part) const {
    menu.addSeparator();
    QMenu* lift = menu.addMenu(tr("Lift"));
    for (int pin = 0; pin < pinCount(part.kind); ++pin) {
        const QString leg = legName(part, pin);
        connect(lift->addAction(leg), &QAction::triggered, this, [=, this, id = part.id, name = nameOf(part)] {
            fit(Lift{id, pin}, tr("Lift %1 of %2").arg(leg, name));
        });
    }
    const auto pairs = pinPairs(part);
    QMenu* bridge = pairs.size() == 1 ? &menu : menu.addMenu(tr("Bridge"));
    for (const auto& [first, second] : pairs) {
        const QString words = pairs.size() == 1
                                  ? tr("Bridge")
                                  : tr("%1 to %2", "two places").arg(legName(part, first), legName(part, second));
        const Bridge change{part.id, first, second};
        connect(bridge->addAction(words), &QAction::triggered, this,
                [this, change, name = nameOf(part)] { fit(change, tr("Bridge %1").arg(name)); });
    }
}

}  // namespace ohmwright
