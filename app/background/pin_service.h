/// The curves of pinned states, solved off the GUI thread for the kinds that are on the screen, each once.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measure/curve_table.h"
#include "core/plan/job.h"

#include <QObject>
#include <QString>

#include <memory>
#include <string>
#include <vector>

namespace ohmwright {

template <class Answer>
class OwnLane;
class JobDocument;

/// One kind of curve of one pinned state.
struct PinnedAnswer {
    PinnedState pinned;
    CurveKind kind = CurveKind::response;
    CurveTable table;
    QString fault;  ///< Why there is no table; else empty.
};

struct PinnedTable {
    std::string letter;
    const CurveTable* table = nullptr;
};

class PinService : public QObject {
    Q_OBJECT
public:
    explicit PinService(JobDocument& document, QObject* parent = nullptr);
    ~PinService() override;

    /// What is on the screen; other kinds are not solved.
    void show(std::vector<CurveKind> kinds);
    /// Of the states that are pinned now and have curves, in their order; the tables live until the next change.
    [[nodiscard]] std::vector<PinnedTable> tables(CurveKind kind) const;
    /// Why a pinned state has no curves; empty where it has, or is still being solved.
    [[nodiscard]] QString fault(const std::string& letter) const;
    /// Whether all that is pinned and shown is solved.
    [[nodiscard]] bool isCurrent() const;

signals:
    /// An answer came, or another state is pinned.
    void changed();

private:
    struct Wanted {
        PinnedState pinned;
        CurveKind kind = CurveKind::response;
    };
    void follow();
    void ask();
    void take(std::vector<PinnedAnswer> answers);
    [[nodiscard]] const PinnedAnswer* find(const PinnedState& pinned, CurveKind kind) const;
    [[nodiscard]] std::vector<Wanted> missing() const;

    std::unique_ptr<OwnLane<std::vector<PinnedAnswer>>> m_lane;
    JobDocument& m_document;
    std::vector<CurveKind> m_kinds;
    Circuit m_stock;  ///< That the answers are of.
    std::vector<PinnedAnswer> m_answers;
};

}  // namespace ohmwright
