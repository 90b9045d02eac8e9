/// The column beside the drawing: what is picked, what stands at the cross, and what is still to do.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>

namespace ohmwright {

class DrawHand;
class FaultList;
class JobDocument;
class PartFields;
class PlaceFields;

class DrawSide : public QWidget {
    Q_OBJECT
public:
    /// Both must outlive the column.
    DrawSide(JobDocument& document, DrawHand& hand, QWidget* parent = nullptr);

    [[nodiscard]] PartFields& partFields() { return *m_part; }
    [[nodiscard]] PlaceFields& placeFields() { return *m_place; }
    [[nodiscard]] FaultList& faultList() { return *m_faults; }

signals:
    /// Enter was taken: the keyboard goes back to the drawing.
    void done();
    /// What is picked is wanted as a stage of the shop's shelf.
    void keepAsked();
    void refused(const QString& sentence);

private:
    PartFields* m_part;
    PlaceFields* m_place;
    FaultList* m_faults;
};

}  // namespace ohmwright
