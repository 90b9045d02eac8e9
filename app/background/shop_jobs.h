/// Reads the shop's job files off the GUI thread and hands them to the shop: what open jobs have reserved.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QObject>

#include <memory>
#include <vector>

namespace ohmwright {

template <class Answer>
class OwnLane;
class ShopDocument;
struct ShopJob;

class ShopJobs : public QObject {
    Q_OBJECT
public:
    explicit ShopJobs(ShopDocument& shop, QObject* parent = nullptr);
    ~ShopJobs() override;

    /// Reads them again: the place was opened, a job was saved. Another folder is read by itself.
    void read();
    [[nodiscard]] bool isReading() const;

private:
    std::unique_ptr<OwnLane<std::vector<ShopJob>>> m_lane;
    ShopDocument& m_shop;
    QString m_folder;
};

}  // namespace ohmwright
