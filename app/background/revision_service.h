/// Ranks the shop's drawings by readings on the board, beside the window; the latest question wins.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/bench/which_revision.h"

#include <QObject>
#include <QString>

#include <memory>
#include <vector>

namespace ohmwright {

template <class Answer>
class OwnLane;

struct RankedRevisions {
    std::vector<RevisionCandidate> candidates;
    std::vector<SpotReading> readings;
    std::optional<RevisionRanking> ranking;  ///< Absent: see fault.
    QString fault;
};

class RevisionService : public QObject {
    Q_OBJECT
public:
    explicit RevisionService(QObject* parent = nullptr);
    ~RevisionService() override;

    /// Answers with ranked(). @param stored  jobs of the shop.
    void ask(std::shared_ptr<const Job> job, std::vector<Job> stored, std::vector<SpotReading> readings);
    void stop();
    [[nodiscard]] bool isBusy() const;

signals:
    void ranked(std::shared_ptr<const ohmwright::RankedRevisions> answer);

private:
    std::unique_ptr<OwnLane<RankedRevisions>> m_lane;
};

}  // namespace ohmwright
