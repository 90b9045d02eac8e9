/// Lays a drawing out anew off the GUI thread; the latest request wins.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/drawing/rejoin.h"
#include "core/plan/job.h"

#include <QObject>

#include <memory>
#include <vector>

namespace ohmwright {

template <class Answer>
class OwnLane;

class TidyService : public QObject {
    Q_OBJECT
public:
    struct Tidied {
        std::shared_ptr<const Job> job;  ///< That was asked about; its stock circuit is laid out.
        std::vector<PartId> chosen;      ///< Empty: the whole drawing.
        Rejoined drawn;
    };

    explicit TidyService(QObject* parent = nullptr);
    ~TidyService() override;

    /// @param job  never null. @param chosen  parts to be laid out among the rest; empty: all.
    void start(std::shared_ptr<const Job> job, std::vector<PartId> chosen);
    [[nodiscard]] bool isRunning() const;
    /// The last one that came.
    [[nodiscard]] const Tidied& answer() const { return m_answer; }

signals:
    /// An answer came; the job may be another by now.
    void ready();

private:
    std::unique_ptr<OwnLane<Tidied>> m_lane;
    Tidied m_answer;
};

}  // namespace ohmwright
