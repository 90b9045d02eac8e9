// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/document/shop_document.h"

#include <QStringList>
#include <QUndoCommand>

#include <utility>

namespace ohmwright {

/// One undo step: the whole drawer before and after.
class EditDrawer : public QUndoCommand {
public:
    EditDrawer(ShopDocument& document, Drawer after, const QString& text)
        : QUndoCommand(text), m_document(document), m_before(document.shop()->drawer), m_after(std::move(after)) {}

    // Before the first part there was no drawer; an empty one on the disk means the same.
    void undo() override { m_document.show(m_before ? m_before : Drawer()); }
    void redo() override { m_document.show(m_after); }

private:
    ShopDocument& m_document;
    std::optional<Drawer> m_before;
    std::optional<Drawer> m_after;
};

ShopDocument::ShopDocument(QObject* parent) : QObject(parent), m_shop(std::make_shared<const Shop>()) {}

ShopDocument::~ShopDocument() = default;

QString ShopDocument::folder() const {
    return QString::fromStdU16String(m_shop->folder.u16string());
}

QStringList ShopDocument::faults() const {
    QStringList sentences;
    for (const Error& fault : m_shop->faults) {
        sentences << QString::fromStdString(fault.message);
    }
    if (!m_notWritten.isEmpty()) {
        sentences << m_notWritten;
    }
    return sentences;
}

void ShopDocument::open(const QString& folder) {
    m_undo.clear();
    m_notWritten.clear();
    m_jobs.clear();
    m_shop = std::make_shared<const Shop>(readShop(std::filesystem::path(folder.toStdU16String())));
    announce();
}

void ShopDocument::setJobs(std::vector<ShopJob> jobs) {
    m_jobs = std::move(jobs);
    announce();
}

bool ShopDocument::editDrawer(const Drawer& edited, const QString& text) {
    if (m_shop->drawer == edited) {
        return true;
    }
    if (const std::vector<std::string> faults = faultsOf(edited); !faults.empty()) {
        emit refused(QString::fromStdString(faults.front()));
        return false;
    }
    m_undo.push(new EditDrawer(*this, edited, text));  // The stack takes the command as its own.
    return true;
}

void ShopDocument::show(const std::optional<Drawer>& drawer) {
    auto shop = std::make_shared<Shop>(*m_shop);
    const Result<void> saved = saveShopDrawer(*shop, *drawer);
    m_notWritten = saved ? QString() : QString::fromStdString(saved.error().message);
    shop->drawer = drawer;
    m_shop = std::move(shop);
    announce();
    if (!saved) {
        emit refused(m_notWritten);
    }
}

void ShopDocument::announce() {
    m_onHand = m_shop->drawer.value_or(Drawer());
    std::vector<Job> jobs;
    for (const ShopJob& file : m_jobs) {
        if (file.job) {
            jobs.push_back(*file.job);
        }
    }
    m_onHand = withReservations(m_onHand, jobs);
    emit shopChanged();
}

}  // namespace ohmwright
