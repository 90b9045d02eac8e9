/// The kinds of curve that the solver's own answers do not hold (level, harmonics, time, noise, bias): solved off the
/// GUI thread, and only while one of them is on the screen.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/plan/compare_curves.h"

#include <QObject>
#include <QString>

#include <memory>
#include <optional>

namespace ohmwright {

template <class Answer>
class OwnLane;
class JobDocument;

struct CurveAnswer {
    std::shared_ptr<const Job> job;
    CurveKind kind = CurveKind::response;
    std::optional<ComparedCurve> curve;
    QString fault;  ///< Why there is none; else empty.
};

class CurveService : public QObject {
    Q_OBJECT
public:
    explicit CurveService(JobDocument& document, QObject* parent = nullptr);
    ~CurveService() override;

    /// What is on the screen; nothing stops the work.
    void show(std::optional<CurveKind> kind);
    [[nodiscard]] std::optional<CurveKind> shown() const { return m_kind; }
    /// The last answer of the kind that is shown, of this or an earlier state of the job; null before the first.
    [[nodiscard]] const CurveAnswer* answer() const;
    /// Whether that answer belongs to the job as it is, words apart.
    [[nodiscard]] bool isCurrent() const;

signals:
    /// An answer came, or the one that was there is no longer current.
    void changed();

private:
    void ask();

    std::unique_ptr<OwnLane<CurveAnswer>> m_lane;
    JobDocument& m_document;
    std::optional<CurveKind> m_kind;
    std::shared_ptr<const Job> m_electrical;  ///< The newest job, less edits of words only.
    CurveAnswer m_answer;
};

}  // namespace ohmwright
