/// The side-effect strip: what the plan upsets, each with its limit and what is left; folded, lamps with words.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/background/consequence_service.h"
#include "app/consequences/effect_groups.h"

#include <QAbstractButton>
#include <QWidget>

#include <vector>

namespace ohmwright {

/// A cell that is pressed for its sentences and their sources.
class StripCell : public QAbstractButton {
    Q_OBJECT
public:
    StripCell(StripEntry entry, bool isLamp, QWidget* parent);

    [[nodiscard]] const StripEntry& entry() const { return m_entry; }
    /// What stands on it.
    [[nodiscard]] QString words() const;
    /// Without cutting anything [px].
    [[nodiscard]] static int neededWidth(const StripEntry& entry, bool isLamp);
    void setOld(bool isOld);

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    StripEntry m_entry;
    bool m_isLamp;
    bool m_isOld = false;
};

/// Always there with a job, never hidden. Follows the service. What has no room for a cell of its own and nothing to
/// warn of shares one; a warning never does.
class EffectStrip : public QWidget {
    Q_OBJECT
public:
    explicit EffectStrip(ConsequenceService& consequences, QWidget* parent = nullptr);

    /// One line of lamps instead of three lines of words; with the claims where their rail is folded away.
    void setFolded(bool folded);
    void setClaimsShown(bool shown);
    [[nodiscard]] const std::vector<StripCell*>& cells() const { return m_cells; }

    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override { return {0, sizeHint().height()}; }

protected:
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

private:
    void follow();
    void arrange();
    [[nodiscard]] std::vector<StripEntry> fitting(std::vector<StripEntry> entries, int room) const;
    void addCells(const std::vector<StripEntry>& entries, int left, int spare);

    ConsequenceService& m_consequences;
    std::vector<StripEntry> m_effects;
    std::vector<StripEntry> m_claims;
    std::vector<StripCell*> m_cells;
    bool m_isFolded = false;
    bool m_showsClaims = false;
    bool m_isOld = false;
};

}  // namespace ohmwright
