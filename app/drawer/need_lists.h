/// What jobs need of the drawer, in sentences: the pick list of the open job, what all open jobs together are short of,
/// and what can stand for a part or which measured device to fit.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>

#include <memory>

class QLabel;
class QPushButton;
class QVBoxLayout;

namespace ohmwright {

class JobDocument;
template <class Answer>
class OwnLane;
class Selection;
class ShopDocument;

class NeedLists : public QWidget {
    Q_OBJECT
public:
    NeedLists(JobDocument& document, Selection& selection, ShopDocument& shop, QWidget* parent = nullptr);
    ~NeedLists() override;

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    struct Answer;

    void showLists();
    void showAsked();
    void askSubstitutes();
    void askDevices();
    void take(const Answer& answer);

    std::unique_ptr<OwnLane<Answer>> m_lane;
    JobDocument& m_document;
    Selection& m_selection;
    ShopDocument& m_shop;
    QVBoxLayout* m_picks;
    QVBoxLayout* m_shortages;
    QLabel* m_subject;
    QPushButton* m_substitutes;
    QPushButton* m_devices;
    QVBoxLayout* m_answers;
};

}  // namespace ohmwright
