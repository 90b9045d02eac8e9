/// What the card of a visit is held against, worked out off the GUI thread: readings that the drawing expects, and a
/// returned unit against what it left with.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/bench/visits.h"

#include <QObject>
#include <QString>

#include <memory>
#include <vector>

namespace ohmwright {

class JobDocument;

/// Of stock, as the unit came in, and of now, as it leaves.
struct VisitExpectations {
    std::vector<ExpectedReading> comingIn, leaving;            ///< Worth taking.
    std::vector<ExpectedReading> everyComingIn, everyLeaving;  ///< All places.
};

class VisitService : public QObject {
    Q_OBJECT
public:
    explicit VisitService(JobDocument& document, QObject* parent = nullptr);
    ~VisitService() override;

    /// Nothing is solved while nobody looks.
    void setWanted(bool wanted);
    /// Of the job as it is now, less its words; null until it is there.
    [[nodiscard]] std::shared_ptr<const VisitExpectations> expectations() const;
    /// The readings on coming in against the last record of leaving; null without either, and until it is there.
    [[nodiscard]] std::shared_ptr<const ReturnCheck> returned() const;
    /// Why there is nothing for the job as it is now; else empty.
    [[nodiscard]] QString fault() const;

signals:
    void changed();

private:
    void follow();
    void followReadings();

    struct Lanes;
    std::unique_ptr<Lanes> m_lanes;
    JobDocument& m_document;
    bool m_isWanted = false;
    std::shared_ptr<const Job> m_electrical, m_asked, m_answered;
    std::shared_ptr<const VisitExpectations> m_expectations;
    std::vector<UnitReading> m_askedReadings;
    std::size_t m_askedRecords = 0;
    std::shared_ptr<const ReturnCheck> m_returned;
    QString m_fault;
};

}  // namespace ohmwright
