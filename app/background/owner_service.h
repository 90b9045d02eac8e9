/// Who owns the cursor's frequency, solved off the GUI thread while it is looked at; follows job, cursor and hold for
/// stock by itself.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/plan/job.h"
#include "core/plan/owners.h"

#include <QObject>
#include <QString>

#include <memory>
#include <vector>

namespace ohmwright {

class JobDocument;
class Selection;

struct OwnersAnswer {
    double hertz = 0.0;
    bool isStock = false;  ///< Of the unit as found, else of now.
    std::vector<Owner> owners;
    QString fault;  ///< Why there are none; else empty.
};

class OwnerService : public QObject {
    Q_OBJECT
public:
    OwnerService(JobDocument& document, Selection& selection, QObject* parent = nullptr);
    ~OwnerService() override;

    /// Whether somebody looks at it; nothing is solved while nobody does.
    void setWanted(bool wanted);
    /// Null while nobody asks and before the first answer. While a value turns, that of the state before for a third
    /// of a second at most.
    [[nodiscard]] std::shared_ptr<const OwnersAnswer> answer() const { return m_answer; }
    /// Whether an answer is still to come.
    [[nodiscard]] bool isBusy() const;

signals:
    /// Another answer, or none any more.
    void changed();

private:
    void askSoon();
    void ask();
    void forget();

    struct Lane;
    std::unique_ptr<Lane> m_lane;
    JobDocument& m_document;
    Selection& m_selection;
    bool m_isWanted = false;
    std::shared_ptr<const OwnersAnswer> m_answer;
};

}  // namespace ohmwright
