/// The shop: its folder, what its files say, its drawer through undo, and the jobs in it. One a window, beside the job.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/files/shop_folder.h"

#include <QObject>
#include <QString>
#include <QUndoStack>

#include <memory>
#include <vector>

namespace ohmwright {

/// All members on the GUI thread. A snapshot handed out never changes. Every edit of the drawer is written at once: a
/// count that is wrong after a power cut spoils the next job.
class ShopDocument : public QObject {
    Q_OBJECT
public:
    explicit ShopDocument(QObject* parent = nullptr);
    ~ShopDocument() override;

    /// Never null. Without a folder the house's figures.
    [[nodiscard]] std::shared_ptr<const Shop> shop() const { return m_shop; }
    [[nodiscard]] QString folder() const;
    /// The drawer less what the shop's open jobs need (files/shop_folder.h's withReservations): what a plan may take.
    /// Empty without a drawer: stock is assumed then.
    [[nodiscard]] const Drawer& onHand() const { return m_onHand; }
    /// The shop's job files as they were read last, on whatever thread; empty before.
    [[nodiscard]] const std::vector<ShopJob>& jobs() const { return m_jobs; }
    /// What cannot be read in the folder, a sentence each, and why the drawer is not on the disk as it is here.
    [[nodiscard]] QStringList faults() const;
    [[nodiscard]] QUndoStack& undoStack() { return m_undo; }

    /// Reads the folder; clears undo. One that is not there is an empty shop that is made with the first part.
    void open(const QString& folder);
    /// Reads the folder again, as after a change from outside; clears undo.
    void reload() { open(folder()); }
    /// What the shop's job files hold, read elsewhere.
    void setJobs(std::vector<ShopJob> jobs);

    /// Makes an edit one undo step and writes it. A drawer with a fault is refused in words and changes nothing; one
    /// that cannot be written stays here and is announced, work goes on. Returns whether it was taken.
    bool editDrawer(const Drawer& edited, const QString& text);

signals:
    void shopChanged();
    void refused(const QString& sentence);

private:
    friend class EditDrawer;
    void show(const std::optional<Drawer>& drawer);
    void announce();

    std::shared_ptr<const Shop> m_shop;
    Drawer m_onHand;
    std::vector<ShopJob> m_jobs;
    QUndoStack m_undo;
    QString m_notWritten;
};

}  // namespace ohmwright
