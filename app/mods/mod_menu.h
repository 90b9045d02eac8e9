/// What can be done to a part, as a menu: for the mods list's button and for the map's right click.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/plan/job.h"

#include <QObject>
#include <QString>

#include <functional>
#include <vector>

class QMenu;
class QWidget;

namespace ohmwright {

class JobDocument;

/// An entry that needs a figure before it can be done.
struct ValueQuestion {
    QString title;  ///< "Across C4 Cg: capacitor"
    Unit unit = Unit::none;
    QString start;  ///< What stands in the field at first.
    /// The edit with a value [SI].
    std::function<Result<Job>(const Job&, double)> edit;
    /// "Add capacitor across C4 Cg, %3": the value as typed fills the last place.
    QString editText;
};

/// Entries edit the document at once, or ask for a value through valueAsked().
class ModMenu : public QObject {
    Q_OBJECT
public:
    explicit ModMenu(JobDocument& document, QObject* parent = nullptr);

    /// The types that can be fitted, beside those of the circuit.
    void setModels(std::vector<Model> models);
    /// Of the circuit, then of the library; each name once.
    [[nodiscard]] std::vector<Model> modelsOfKind(PartKind kind) const;

    /// The menu for a part of the circuit as it is now; deletes itself when it closes. Never null: a part that cannot
    /// be changed gets a menu that says why.
    [[nodiscard]] QMenu* build(const PartId& part, QWidget* parent) const;

signals:
    void valueAsked(const ohmwright::ValueQuestion& question) const;

private:
    void addSwap(QMenu& menu, const Part& part) const;
    void addNewParts(QMenu& menu, const QString& place,
                     const std::function<Change(const NewPart&, bool reversed)>& change) const;
    void addSeries(QMenu& menu, const Part& part) const;
    void addAcross(QMenu& menu, const Part& part) const;
    void addLiftAndBridge(QMenu& menu, const Part& part) const;
    void fit(const Change& change, const QString& text) const;

    JobDocument& m_document;
    std::vector<Model> m_models;
};

/// The circuit with the plan that is on; the stock circuit when the plan cannot be applied.
Circuit circuitNow(const Job& job);

}  // namespace ohmwright
