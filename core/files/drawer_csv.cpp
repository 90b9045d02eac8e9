// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/drawer_csv.h"

#include "core/base/said.h"
#include "core/base/value_text.h"
#include "core/files/csv_table.h"
#include "core/files/format_words.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <functional>
#include <optional>
#include <set>
#include <utility>

namespace ohmwright {

namespace {

constexpr std::array<std::string_view, 15> columnNames{"id",       "kind",    "value",    "type",      "lot",
                                                       "quantity", "printed", "measured", "tolerance", "pitch_mm",
                                                       "volts",    "build",   "price",    "devices",   "reserved"};

std::string trimmed(std::string_view text) {
    const auto isBlank = [](char c) { return c == ' ' || c == '\t'; };
    while (!text.empty() && isBlank(text.front())) {
        text.remove_prefix(1);
    }
    while (!text.empty() && isBlank(text.back())) {
        text.remove_suffix(1);
    }
    return std::string(text);
}

std::string lowered(std::string text) {
    for (char& c : text) {
        c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    }
    return text;
}

std::vector<std::string> splitAt(std::string_view text, char separator) {
    std::vector<std::string> pieces;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find(separator), text.size());
        if (std::string piece = trimmed(text.substr(0, end)); !piece.empty()) {
            pieces.push_back(std::move(piece));
        }
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return pieces;
}

template <class Number>
std::optional<Number> wholeNumber(std::string_view text) {
    Number number{};
    const auto end = std::from_chars(text.data(), text.data() + text.size(), number);
    if (end.ec != std::errc() || end.ptr != text.data() + text.size()) {
        return std::nullopt;
    }
    return number;
}

/// Shortest digits that read back exactly.
std::string exactDigits(double number, std::chars_format format) {
    char text[40];
    const auto end = std::to_chars(text, text + sizeof text, number, format);
    return std::string(text, end.ptr);
}

/// "4k7" where that tells the value exactly, else all digits with an exponent.
std::string exactValueText(double value, Unit unit) {
    const InEnglish file;
    std::string text = formatPartValue({value, unit}, ValueStyle::letterAsPoint);
    const auto back = readValue(text, unit);
    const bool isExact = back && back->size() == 1 && back->front().value.si == value;
    return isExact ? text : exactDigits(value, std::chars_format::scientific);
}

// ---- Reading -------------------------------------------------------------------------------------------------

/// One line of the table as a lot. The first thing that is wrong is kept.
class LineReader {
public:
    using Column = std::function<const std::string&(std::string_view)>;

    LineReader(Column cell, bool hasDecimalCommas) : m_cell(std::move(cell)), m_hasDecimalCommas(hasDecimalCommas) {}

    std::optional<DrawerLot> read() {
        DrawerLot lot;
        readKind(lot);
        lot.id = m_cell("id");
        lot.type = m_cell("type");
        lot.lot = m_cell("lot");
        lot.printed = m_cell("printed");
        lot.build = m_cell("build");
        lot.quantity = readQuantity();
        if (m_trouble.empty() && hasValue(lot.kind)) {
            readValues(lot);
        } else if (lot.type.empty()) {
            fail(said("%1 needs the name of its type.", said(kindAsOne(lot.kind))));
        }
        lot.tolerance = readTolerance();
        lot.pitchMillimetres = readPlain("pitch_mm");
        lot.ratedVolts = readPlain("volts");
        lot.price = readPlain("price");
        readDevices(lot);
        readReserved(lot);
        return m_trouble.empty() ? std::optional(lot) : std::nullopt;
    }
    [[nodiscard]] const std::string& trouble() const { return m_trouble; }

private:
    void fail(const std::string& sentence) {
        if (m_trouble.empty()) {
            m_trouble = sentence;
        }
    }

    void readKind(DrawerLot& lot) {
        const std::string word = lowered(m_cell("kind"));
        std::string known;
        for (const Word<PartKind>& kind : partKindWords) {
            if (word == kind.text || word == lowered(std::string(kindName(kind.meaning)))) {
                lot.kind = kind.meaning;
                return;
            }
            const bool isBought = pinCount(kind.meaning) > 0 && (hasValue(kind.meaning) || isDevice(kind.meaning));
            known += isBought ? (known.empty() ? "" : ", ") + std::string(kind.text) : "";
        }
        fail(said("kind “%1” is unknown: write %2.", m_cell("kind"), known));
    }
    static bool isDevice(PartKind kind) {
        return kind == PartKind::diode || kind == PartKind::bipolar || kind == PartKind::opamp ||
               kind == PartKind::jfet || kind == PartKind::mosfet || kind == PartKind::triode ||
               kind == PartKind::pentode;
    }

    int readQuantity() {
        const std::string& text = m_cell("quantity");
        const auto number = wholeNumber<int>(text);
        if (!number || *number < 0) {
            fail(said("quantity “%1” is no whole number from 0 up.", text));
        }
        return number.value_or(0);
    }

    void readValues(DrawerLot& lot) {
        const Unit unit = unitOf(lot.kind);
        if (m_cell("value").empty()) {
            fail(said("%1 needs a value.", said(kindAsOne(lot.kind))));
            return;
        }
        lot.value = readValueCell("value", unit);
        if (!m_cell("measured").empty()) {
            lot.measured = readValueCell("measured", unit);
        }
    }

    double readValueCell(std::string_view column, Unit unit) {
        const std::string& text = m_cell(column);
        // All digits with an exponent are of this program's own writing, in the SI unit.
        if (const auto plain = withExponent(text)) {
            return *plain;
        }
        const Result<Quantity> value = parsePartValue(text, unit);
        if (!value) {
            fail(std::string(column) + ": " + value.error().message);
            return 0.0;
        }
        return value->si;
    }
    [[nodiscard]] std::optional<double> withExponent(std::string text) const {
        if (text.find_first_of("eE") == std::string::npos) {
            return std::nullopt;
        }
        if (m_hasDecimalCommas) {
            std::replace(text.begin(), text.end(), ',', '.');
        }
        const auto number = wholeNumber<double>(text);
        return number && std::isfinite(*number) ? number : std::nullopt;
    }

    /// A number without a unit; 0 where the cell is empty.
    double readPlain(std::string_view column) {
        const std::string& text = m_cell(column);
        return text.empty() ? 0.0 : readNumber(column, text);
    }
    double readNumber(std::string_view column, std::string text) {
        const std::size_t comma = text.find(',');
        if (comma != std::string::npos) {
            const bool maybeThousands = !m_hasDecimalCommas && text.size() - comma == 4;
            if (maybeThousands || text.find(',', comma + 1) != std::string::npos ||
                text.find('.') != std::string::npos) {
                fail(said(
                    "%1 “%2” can be read in two ways: write it with a decimal point and nothing between the thousands.",
                    column, text));
                return 0.0;
            }
            text[comma] = '.';
        }
        const auto number = wholeNumber<double>(text);
        if (!number || !std::isfinite(*number)) {
            fail(said("%1 “%2” is no number.", column, text));
            return 0.0;
        }
        return *number;
    }

    double readTolerance() {
        std::string text = m_cell("tolerance");
        if (!text.empty() && text.back() == '%') {
            text = trimmed(std::string_view(text).substr(0, text.size() - 1));
        }
        return text.empty() ? 0.0 : readNumber("tolerance", text) / 100.0;
    }

    void readDevices(DrawerLot& lot) {
        for (const std::string& piece : splitAt(m_cell("devices"), '|')) {
            const std::vector<std::string> words = splitAt(piece, ' ');
            MeasuredDevice device;
            device.label = words.front();
            for (auto word = words.begin() + 1; word != words.end(); ++word) {
                readDeviceFigure(device, *word);
            }
            lot.devices.push_back(device);
        }
    }
    void readDeviceFigure(MeasuredDevice& device, const std::string& word) {
        const std::size_t equals = std::min(word.find('='), word.size());
        const std::string name = lowered(word.substr(0, equals));
        const std::string figure = equals < word.size() ? word.substr(equals + 1) : "";
        if (name == "beta") {
            device.beta = readNumber("devices: beta", figure);
        } else if (name == "idss") {
            device.saturationAmperes = readSigned("devices: idss", figure, Unit::ampere);
        } else if (name == "vp") {
            device.pinchOffVolts = readSigned("devices: vp", figure, Unit::volt);
        } else {
            fail(said("devices: “%1” is nothing that is measured of a device: write beta=, idss= or vp=.", word));
        }
    }
    double readSigned(const std::string& what, const std::string& text, Unit unit) {
        if (const auto plain = wholeNumber<double>(text); plain && std::isfinite(*plain)) {
            return *plain;
        }
        const bool isNegative = text.starts_with('-');
        const Result<Quantity> value = parsePartValue(isNegative ? text.substr(1) : text, unit);
        if (!value) {
            fail(what + ": " + value.error().message);
            return 0.0;
        }
        return isNegative ? -value->si : value->si;
    }

    void readReserved(DrawerLot& lot) {
        for (const std::string& piece : splitAt(m_cell("reserved"), '|')) {
            const std::size_t equals = piece.rfind('=');
            const auto quantity = equals == std::string::npos
                                      ? std::nullopt
                                      : wholeNumber<int>(trimmed(std::string_view(piece).substr(equals + 1)));
            if (!quantity || *quantity < 1) {
                fail(said("reserved “%1”: write job=quantity.", piece));
                return;
            }
            lot.reserved[trimmed(std::string_view(piece).substr(0, equals))] += *quantity;
        }
    }

    Column m_cell;
    bool m_hasDecimalCommas;
    std::string m_trouble;
};

/// Where each known column stands.
class Heading {
public:
    Result<void> read(const CsvRecord& record, std::vector<std::string>& unknown) {
        for (std::size_t place = 0; place < record.cells.size(); ++place) {
            const std::string name = lowered(record.cells[place]);
            if (std::find(columnNames.begin(), columnNames.end(), name) == columnNames.end()) {
                unknown.push_back(record.cells[place]);
            } else if (!m_places.emplace(name, place).second) {
                return wrong(record, said("the column \"%1\" is there twice. Take one out.", name));
            }
        }
        for (const char* needed : {"kind", "quantity"}) {
            if (!m_places.contains(needed)) {
                return wrong(
                    record,
                    said("there is no column \"%1\". The first line names the columns: kind, value, type, quantity ...",
                         needed));
            }
        }
        if (!m_places.contains("value") && !m_places.contains("type")) {
            return wrong(record,
                         said("there is neither a column \"value\" nor one \"type\": one of them says what it is."));
        }
        return {};
    }
    [[nodiscard]] const std::string& cell(const CsvRecord& record, std::string_view column) const {
        static const std::string nothing;
        const auto place = m_places.find(std::string(column));
        return place == m_places.end() || place->second >= record.cells.size() ? nothing : record.cells[place->second];
    }

private:
    static Error wrong(const CsvRecord& record, const std::string& sentence) {
        return {ErrorCode::fileDamaged, said("line %1: %2", record.line, sentence),
                "line " + std::to_string(record.line)};
    }
    std::map<std::string, std::size_t> m_places;
};

const char* letterOf(PartKind kind) {
    switch (kind) {
        case PartKind::resistor:
            return "R-";
        case PartKind::capacitor:
            return "C-";
        case PartKind::inductor:
            return "L-";
        case PartKind::potentiometer:
            return "VR-";
        default:
            return "";
    }
}

/// "R-4k7", "1N4148", "R-4k7-2": the first that nothing has yet.
std::string freeId(const DrawerLot& lot, const std::set<std::string>& taken) {
    const InEnglish key;
    const std::string wish = hasValue(lot.kind) ? letterOf(lot.kind) + formatPartValue({lot.value, unitOf(lot.kind)},
                                                                                       ValueStyle::letterAsPoint)
                                                : lot.type;
    std::string id = wish;
    for (int number = 2; taken.contains(id); ++number) {
        id = wish + "-" + std::to_string(number);
    }
    return id;
}

// ---- Writing -------------------------------------------------------------------------------------------------

std::string plainText(double number) {
    return number == 0.0 ? "" : exactDigits(number, std::chars_format::general);
}

std::string devicesText(const DrawerLot& lot) {
    std::string text;
    for (const MeasuredDevice& device : lot.devices) {
        text += (text.empty() ? "" : " | ") + device.label;
        const auto add = [&text](const char* name, const std::optional<double>& figure) {
            text += figure ? " " + std::string(name) + "=" + exactDigits(*figure, std::chars_format::general) : "";
        };
        add("beta", device.beta);
        add("idss", device.saturationAmperes);
        add("vp", device.pinchOffVolts);
    }
    return text;
}

std::string reservedText(const DrawerLot& lot) {
    std::string text;
    for (const auto& [job, quantity] : lot.reserved) {
        text += (text.empty() ? "" : " | ") + job + "=" + std::to_string(quantity);
    }
    return text;
}

std::string kindWord(PartKind kind) {
    return wordFor(kind, partKindWords).text;
}

std::vector<std::string> cellsOf(const DrawerLot& lot, CsvStyle style) {
    const auto number = [style](std::string text) {
        if (style == CsvStyle::semicolons) {
            std::replace(text.begin(), text.end(), '.', ',');
        }
        return text;
    };
    const Unit unit = unitOf(lot.kind);
    const bool isValue = hasValue(lot.kind);
    return {lot.id,
            kindWord(lot.kind),
            isValue ? number(exactValueText(lot.value, unit)) : "",
            lot.type,
            lot.lot,
            std::to_string(lot.quantity),
            lot.printed,
            lot.measured ? number(exactValueText(*lot.measured, unit)) : "",
            number(plainText(lot.tolerance * 100.0)),
            number(plainText(lot.pitchMillimetres)),
            number(plainText(lot.ratedVolts)),
            lot.build,
            number(plainText(lot.price)),
            devicesText(lot),
            reservedText(lot)};
}

}  // namespace

Result<DrawerTable> readDrawerCsv(std::string_view text) {
    const char separator = separatorOf(text);
    const auto records = readCsvRecords(text, separator);
    if (!records) {
        return records.error();
    }
    if (records->empty()) {
        return Error{ErrorCode::fileDamaged,
                     said("The table is empty. Its first line names the columns: kind, value, type, quantity ..."),
                     "line 1"};
    }
    DrawerTable table;
    Heading heading;
    if (const Result<void> read = heading.read(records->front(), table.unknownColumns); !read) {
        return read.error();
    }
    std::set<std::string> taken;
    for (const CsvRecord& record : *records) {
        taken.insert(heading.cell(record, "id"));
    }
    std::set<std::string> seen;
    for (auto record = records->begin() + 1; record != records->end(); ++record) {
        LineReader reader([&](std::string_view column) -> const std::string& { return heading.cell(*record, column); },
                          separator == ';');
        std::optional<DrawerLot> lot = reader.read();
        std::string trouble = reader.trouble();
        if (lot) {
            if (lot->id.empty()) {
                lot->id = freeId(*lot, taken);
                taken.insert(lot->id);
            }
            const std::vector<std::string> faults = faultsOf({"", {*lot}});
            trouble = !faults.empty()               ? faults.front()
                      : seen.insert(lot->id).second ? ""
                                                    : said("there is a lot “%1” above already. Rename one.", lot->id);
        }
        if (trouble.empty()) {
            table.lots.push_back(*std::move(lot));
        } else {
            table.troubles.push_back({record->line, said("line %1: %2", record->line, trouble)});
        }
    }
    return table;
}

std::string writeDrawerCsv(const Drawer& drawer, CsvStyle style) {
    const char separator = style == CsvStyle::semicolons ? ';' : ',';
    std::string text;
    const auto addLine = [&](const auto& cells) {
        std::string line;
        for (const auto& cell : cells) {
            line += (line.empty() && &cell == &*std::begin(cells) ? "" : std::string(1, separator)) +
                    csvCell(cell, separator);
        }
        text += line + "\n";
    };
    addLine(columnNames);
    for (const DrawerLot& lot : drawer.lots) {
        addLine(cellsOf(lot, style));
    }
    return text;
}

Drawer mergedInto(const Drawer& drawer, const DrawerTable& table) {
    Drawer merged = drawer;
    for (const DrawerLot& lot : table.lots) {
        const auto old = std::find_if(merged.lots.begin(), merged.lots.end(),
                                      [&lot](const DrawerLot& each) { return each.id == lot.id; });
        if (old == merged.lots.end()) {
            merged.lots.push_back(lot);
            continue;
        }
        DrawerLot replacement = lot;
        if (replacement.reserved.empty()) {
            replacement.reserved = old->reserved;
        }
        *old = replacement;
    }
    return merged;
}

}  // namespace ohmwright
