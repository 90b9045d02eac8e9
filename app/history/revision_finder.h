/// Which revision is this board? Readings typed one by one, and the shop's drawings ranked by them.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/background/revision_service.h"
#include "app/document/job_document.h"

#include <QStringList>
#include <QWidget>

#include <memory>
#include <vector>

class QLineEdit;
class QPushButton;
class QVBoxLayout;

namespace ohmwright {

class SentenceList;
class ShopDocument;
class SignText;

class RevisionFinder : public QWidget {
    Q_OBJECT
public:
    RevisionFinder(JobDocument& document, ShopDocument& shop, QWidget* parent = nullptr);

private:
    void build();
    /// Readings are of the unit that is open; an answer is of its drawing.
    void followJob(JobAspect aspect);
    void offerPlaces();
    void add();
    void remove(std::size_t index);
    void showReadings();
    void ask();
    void showAnswer(const RankedRevisions& answer);

    JobDocument& m_document;
    ShopDocument& m_shop;
    RevisionService m_service;
    std::vector<SpotReading> m_readings;
    Circuit m_stock;  ///< As the places were last offered.
    QStringList m_places;
    QLineEdit* m_red;
    QLineEdit* m_black;
    QLineEdit* m_value;
    SignText* m_message;
    QPushButton* m_add;
    QVBoxLayout* m_list;
    QPushButton* m_compare;
    SentenceList* m_answer;
};

}  // namespace ohmwright
