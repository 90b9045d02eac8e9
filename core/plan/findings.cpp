// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/findings.h"

#include "core/base/said.h"
#include "core/base/same_figure.h"
#include "core/circuit/check.h"
#include "core/circuit/net_names.h"
#include "core/drawing/draw_beside.h"
#include "core/drawing/edit.h"
#include "core/plan/apply.h"

#include <algorithm>
#include <utility>

namespace ohmwright {

namespace {

Error wrong(const std::string& sentence, const std::string& where) {
    return {ErrorCode::invalidInput, sentence, where};
}

/// What a reading says of the part itself: where it lies on the drawing and what a meter read are no part of it.
Part bareOf(Part part) {
    part.placement.reset();
    part.knowledge = Knowledge::drawn;
    part.measured.reset();
    return part;
}

/// Nets that nothing ties to ground and that did not float before are open on purpose.
void openSince(Circuit& stock, const std::vector<NetName>& floated) {
    for (const NetName& net : netsWithoutDcPath(stock)) {
        if (std::find(floated.begin(), floated.end(), net) == floated.end()) {
            stock.openNets.push_back(net);
        }
    }
}

struct SameFinding {
    const Finding& other;

    bool operator()(const ValueFound& one) const {
        const auto& two = std::get<ValueFound>(other);
        return isSameFigure(one.value, two.value) && one.printed == two.printed;
    }
    bool operator()(const ToleranceFound& one) const {
        return isSameFigure(one.tolerance, std::get<ToleranceFound>(other).tolerance);
    }
    bool operator()(const LawFound& one) const {
        const auto& two = std::get<LawFound>(other);
        return one.taper == two.taper && (one.taper == Taper::linear || isSameFigure(one.shareAtHalf, two.shareAtHalf));
    }
    bool operator()(const PresenceFound& one) const {
        const auto& two = std::get<PresenceFound>(other);
        return one.part.has_value() == two.part.has_value() && (!one.part || bareOf(*one.part) == bareOf(*two.part));
    }
    template <class Other>
    bool operator()(const Other& one) const {
        return one == std::get<Other>(other);
    }
};

// ---- Putting a finding into stock ---------------------------------------------------------------------------------

/// Puts one thing of one part right in its own copy of stock, and remembers what else that did.
class Corrector {
public:
    Corrector(Circuit stock, PartId part) : m_stock(std::move(stock)), m_id(std::move(part)) {}

    Result<void> put(const Finding& finding) {
        return std::visit([this](const auto& found) { return put(found); }, finding);
    }
    [[nodiscard]] PutFinding take() && { return {std::move(m_stock), std::move(m_broughtType)}; }

private:
    Result<void> put(const ValueFound& found) {
        Part& part = own();
        const std::optional<ValueLimits> limits = valueLimits(part.kind);
        if (!limits || !limits->hold(found.value)) {
            return wrong(
                limits
                    ? said("%1 cannot have that value. Choose one from %2.", displayName(part), said(limits->words))
                    : said("%1 cannot have that value. It has none of its own: correct its type.", displayName(part)),
                part.reference);
        }
        part.value = found.value;
        part.printed = found.printed;
        return {};
    }
    Result<void> put(const TypeFound& found) {
        const std::string printed = found.printed;
        // The plan's own fitter knows which types fit.
        const Part before = own();
        const bool isKnown = findModel(m_stock, found.model.name) != nullptr;
        Result<Circuit> swapped = applyMod(m_stock, asMod(SwapType{m_id, found.model}));
        if (!swapped) {
            return swapped.error();
        }
        m_stock = *std::move(swapped);
        own() = before;
        own().model = found.model.name;
        own().printed = printed;
        m_broughtType = isKnown ? std::string() : found.model.name;
        return {};
    }
    Result<void> put(const ToleranceFound& found) {
        if (!(found.tolerance >= 0.0 && found.tolerance < 1.0)) {
            return wrong(said("A tolerance lies from 0 to under 100 %. Type it in percent."), own().reference);
        }
        own().tolerance = found.tolerance;
        return {};
    }
    Result<void> put(const LawFound& found) {
        if (!(found.shareAtHalf > 0.0 && found.shareAtHalf < 1.0)) {
            return wrong(
                said("The share of the track of %1 at half travel lies between 0 and 100 %. 10 and 15 % are usual for "
                     "log.",
                     displayName(own())),
                own().reference);
        }
        own().taper = found.taper;
        own().shareAtHalf = found.taper == Taper::linear ? Part().shareAtHalf : found.shareAtHalf;
        return {};
    }
    Result<void> put(const LegFound& found) {
        if (const std::string fault = newNetFault(m_stock, found.net); !fault.empty()) {
            return wrong(fault, own().reference);
        }
        Result<Circuit> moved = applyMod(m_stock, asMod(MoveLeg{m_id, found.pin, found.net}));
        if (!moved) {
            return moved.error();
        }
        m_stock = *std::move(moved);
        return {};
    }
    Result<void> put(const ReferenceFound& found) {
        if (found.reference.empty()) {
            return wrong(said("A part needs a reference, such as R5. Type the one that is printed beside it."), m_id);
        }
        own().reference = found.reference;
        return {};
    }
    Result<void> put(const BoardNoteFound& found) {
        own().boardNote = found.note;
        return {};
    }
    Result<void> put(const PresenceFound& found) {
        if (!found.part) {
            return takeOff();
        }
        return findPart(m_stock, m_id) != nullptr
                   ? Result<void>(wrong(said("There is a part \"%1\" already. Choose another id.", m_id), m_id))
                   : addOn(found);
    }

    Result<void> takeOff() {
        Result<Circuit> bare = applyMod(m_stock, asMod(RemovePart{m_id}));
        if (!bare) {
            return bare.error();
        }
        m_stock = *std::move(bare);
        return {};
    }
    Result<void> addOn(const PresenceFound& found) {
        const Part& part = *found.part;
        if (part.id != m_id) {
            return wrong(said("The part \"%1\" cannot come back as \"%2\". Correct the part anew.", part.id, m_id),
                         m_id);
        }
        if (static_cast<int>(part.nets.size()) != pinCount(part.kind)) {
            return wrong(
                said("%1 has %2 legs, and each needs a net. Name one for each.", part.reference, pinCount(part.kind)),
                part.reference);
        }
        if (const std::optional<ValueLimits> limits = valueLimits(part.kind); limits && !limits->hold(part.value)) {
            return wrong(said("%1 needs a value from %2.", part.reference, said(limits->words)), part.reference);
        }
        if (part.reference.empty()) {
            return wrong(said("The part has no reference. Give it one, such as R40."), m_id);
        }
        for (const NetName& net : part.nets) {
            if (const std::string fault = newNetFault(m_stock, net); !fault.empty()) {
                return wrong(fault, part.reference);
            }
        }
        if (Result<void> typed = bringTypes(found); !typed) {
            return typed;
        }
        const std::vector<NetName> floated = netsWithoutDcPath(m_stock);
        const auto last = static_cast<int>(m_stock.parts.size());
        m_stock.parts.insert(m_stock.parts.begin() + (found.index < 0 ? last : std::min(found.index, last)), part);
        seat(found);
        draw(found);
        openSince(m_stock, floated);
        return {};
    }
    /// At its place, or beside its neighbours where that is taken by now.
    void draw(const PresenceFound& found) {
        if (own().placement && !placeFault(m_stock, own()).empty()) {
            own().placement.reset();
        }
        PartId beside = found.beside;
        for (const Seat& place : found.seats) {
            beside = beside.empty() ? (place.previous.empty() ? place.next : place.previous) : beside;
        }
        if (std::optional<Circuit> drawn = drawnBeside(m_stock, m_id, beside)) {
            m_stock = *std::move(drawn);
        }
    }
    Result<void> bringTypes(const PresenceFound& found) {
        const Part& part = *found.part;
        for (const Model& model : found.models) {
            const Model* known = findModel(m_stock, model.name);
            if (known == nullptr) {
                m_stock.models.push_back(model);
                m_broughtType = model.name;
            } else if (known->kind != model.kind || known->parameters != model.parameters) {
                return wrong(said("The circuit has a type %1 with other parameters. Give one of the two another name.",
                                  model.name),
                             part.reference);
            }
        }
        const Model* type = findModel(m_stock, part.model);
        if (hasModel(part.kind) && (type == nullptr || type->kind != part.kind)) {
            return wrong(said("%1 has no %2 type. Choose one.", part.reference, said(kindName(part.kind))),
                         part.reference);
        }
        return {};
    }
    void seat(const PresenceFound& found) {
        for (const Seat& place : found.seats) {
            seatIn(place);
        }
        if (found.knob) {
            const auto last = static_cast<int>(m_stock.knobs.size());
            m_stock.knobs.insert(m_stock.knobs.begin() + std::clamp(found.knobIndex, 0, last), *found.knob);
        }
        for (Stage& stage : m_stock.stages) {
            if (!found.beside.empty() &&
                std::find(stage.parts.begin(), stage.parts.end(), found.beside) != stage.parts.end()) {
                stage.parts.push_back(m_id);
            }
        }
    }

    /// Before who sat after it, else after who sat before it: stages may have come or gone since. Among strangers by
    /// number.
    void seatIn(const Seat& place) {
        for (const auto& [neighbour, offset] : {std::pair(place.next, 0), std::pair(place.previous, 1)}) {
            for (Stage& stage : m_stock.stages) {
                const auto found = std::find(stage.parts.begin(), stage.parts.end(), neighbour);
                if (!neighbour.empty() && found != stage.parts.end()) {
                    stage.parts.insert(found + offset, m_id);
                    return;
                }
            }
        }
        if (place.stage >= 0 && place.stage < static_cast<int>(m_stock.stages.size())) {
            std::vector<PartId>& parts = m_stock.stages[static_cast<std::size_t>(place.stage)].parts;
            parts.insert(parts.begin() + std::clamp(place.place, 0, static_cast<int>(parts.size())), m_id);
        }
    }

    [[nodiscard]] Part& own() { return *findPart(m_stock, m_id); }
    [[nodiscard]] Mod asMod(const SingleChange& change) const {
        Mod mod;
        mod.id = "correction of " + m_id;
        mod.change = std::visit([](const auto& kind) -> Change { return kind; }, change);
        return mod;
    }

    Circuit m_stock;
    PartId m_id;
    std::string m_broughtType;
};

// ---- What stock says now ------------------------------------------------------------------------------------------

/// Where a part stands, so that it can come back to it.
PresenceFound presenceOf(const Circuit& stock, const PartId& id) {
    PresenceFound found;
    const auto part = std::find_if(stock.parts.begin(), stock.parts.end(), [&](const Part& p) { return p.id == id; });
    if (part == stock.parts.end()) {
        return found;
    }
    found.part = *part;
    found.index = static_cast<int>(part - stock.parts.begin());
    if (const Model* type = findModel(stock, part->model)) {
        found.models.push_back(*type);
    }
    for (std::size_t s = 0; s < stock.stages.size(); ++s) {
        const std::vector<PartId>& seated = stock.stages[s].parts;
        if (const auto seat = std::find(seated.begin(), seated.end(), id); seat != seated.end()) {
            found.seats.push_back({static_cast<int>(s), static_cast<int>(seat - seated.begin()),
                                   seat != seated.begin() ? *(seat - 1) : PartId(),
                                   seat + 1 != seated.end() ? *(seat + 1) : PartId()});
        }
    }
    for (std::size_t k = 0; k < stock.knobs.size(); ++k) {
        if (stock.knobs[k].part == id) {
            found.knob = stock.knobs[k];
            found.knobIndex = static_cast<int>(k);
        }
    }
    return found;
}

/// Why the part has no such thing to correct; empty when it has.
std::string lacks(const Part& part, const Finding& like) {
    const std::string name = displayName(part);
    if (std::holds_alternative<ValueFound>(like) && !hasValue(part.kind)) {
        return said("%1 has no value of its own: correct its type or a leg.", name);
    }
    if (std::holds_alternative<TypeFound>(like) && !hasModel(part.kind)) {
        return said("%1 has no type: correct its value or a leg.", name);
    }
    if (std::holds_alternative<ToleranceFound>(like) && !hasValue(part.kind)) {
        return said("%1 has no tolerance to correct.", name);
    }
    if (std::holds_alternative<LawFound>(like) && part.kind != PartKind::potentiometer) {
        return said("%1 is no pot and has no law to correct.", name);
    }
    const auto* leg = std::get_if<LegFound>(&like);
    if (leg != nullptr && (leg->pin < 0 || leg->pin >= static_cast<int>(part.nets.size()))) {
        return said("%1 has no leg %2; it has %3.", name, leg->pin + 1, part.nets.size());
    }
    return {};
}

struct Reader {
    const Circuit& stock;
    const Part& part;

    Finding operator()(const ValueFound&) const { return ValueFound{part.value, part.printed}; }
    Finding operator()(const TypeFound&) const {
        const Model* type = findModel(stock, part.model);
        return TypeFound{type != nullptr ? *type : Model(), part.printed};
    }
    Finding operator()(const ToleranceFound&) const { return ToleranceFound{part.tolerance}; }
    Finding operator()(const LawFound&) const { return LawFound{part.taper, part.shareAtHalf}; }
    Finding operator()(const LegFound& leg) const {
        return LegFound{leg.pin, part.nets[static_cast<std::size_t>(leg.pin)]};
    }
    Finding operator()(const ReferenceFound&) const { return ReferenceFound{part.reference}; }
    Finding operator()(const BoardNoteFound&) const { return BoardNoteFound{part.boardNote}; }
    Finding operator()(const PresenceFound&) const { return presenceOf(stock, part.id); }
};

}  // namespace

bool isSameFinding(const Finding& one, const Finding& two) {
    return one.index() == two.index() && std::visit(SameFinding{two}, one);
}

bool isSameThing(const Finding& one, const Finding& two) {
    const auto* leg = std::get_if<LegFound>(&one);
    return one.index() == two.index() && (leg == nullptr || leg->pin == std::get<LegFound>(two).pin);
}

Result<Finding> currentReading(const Circuit& stock, const PartId& part, const Finding& like) {
    const Part* own = findPart(stock, part);
    if (own == nullptr) {
        if (std::holds_alternative<PresenceFound>(like)) {
            return Finding(PresenceFound{});
        }
        return wrong(said("There is no part \"%1\" in the unit as found. Choose another part.", part), part);
    }
    if (const std::string reason = lacks(*own, like); !reason.empty()) {
        return wrong(reason, own->reference);
    }
    return std::visit(Reader{stock, *own}, like);
}

Result<PutFinding> putFinding(const Circuit& stock, const PartId& part, const Finding& finding) {
    Corrector corrector(stock, part);
    if (const Result<void> put = corrector.put(finding); !put) {
        return put.error();
    }
    return std::move(corrector).take();
}

Result<Circuit> asDrawn(const Circuit& stock, const Correction& correction) {
    const std::vector<NetName> floated = netsWithoutDcPath(stock);
    Circuit before = stock;
    const auto* more = std::get_if<PresenceFound>(&correction.found);
    if (const Part* part = findPart(stock, correction.part); part != nullptr && more != nullptr && more->part) {
        takeOffLeads(before, *part);
    }
    Result<PutFinding> put = putFinding(before, correction.part, correction.drawn);
    if (!put) {
        return put.error();
    }
    Circuit& drawn = put->stock;
    // What the correction left open is tied again, unless something else keeps it open.
    drawn.openNets = stock.openNets;
    std::erase_if(drawn.openNets, [&](const NetName& net) {
        return std::find(correction.opened.begin(), correction.opened.end(), net) != correction.opened.end();
    });
    openSince(drawn, floated);
    const std::string& brought = correction.broughtType;
    const bool isNamed =
        std::any_of(drawn.parts.begin(), drawn.parts.end(), [&](const Part& part) { return part.model == brought; });
    if (!brought.empty() && !isNamed) {
        std::erase_if(drawn.models, [&](const Model& model) { return model.name == brought; });
    }
    return std::move(drawn);
}

}  // namespace ohmwright
