// The gym's logbook, found where it was made or chosen, and its tables, read and written by key (templates/NAMES.md).
#pragma once

#include "event_cells.h"

#include <com/sun/star/frame/XStorable.hpp>

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace pacecells {

// One table of the logbook as it was when it was read; what is written goes into the cells too.
class LogbookTable {
  public:
    // Refused where the named range, or one of the keys, is missing.
    LogbookTable(const Document& document, std::string_view name);

    // The places of all rows with something in them, in order.
    [[nodiscard]] const std::vector<sal_Int32>& rows() const { return filled_; }
    [[nodiscard]] const css::uno::Any& value(sal_Int32 row, std::string_view key) const;
    [[nodiscard]] std::string text(sal_Int32 row, std::string_view key) const { return text_of(value(row, key)); }
    [[nodiscard]] std::optional<double> number(sal_Int32 row, std::string_view key) const;

    // A row without anything in it, below all others; refused where the table is full.
    [[nodiscard]] sal_Int32 new_row();
    // A blank where there is no value.
    void put(sal_Int32 row, std::string_view key, const std::string& text);
    void put(sal_Int32 row, std::string_view key, const std::optional<double>& number);

  private:
    [[nodiscard]] sal_Int32 column(std::string_view key) const;

    std::string name_;
    Range cells_; // with keys and headings
    Rows values_; // of the rows in use
    std::map<std::string, sal_Int32, std::less<>> columns_;
    std::vector<sal_Int32> filled_;
    sal_Int32 room_ = 0;
};

class Logbook {
  public:
    enum class Use { read, write, show };

    // Opens the file, or takes it where it is open already. To read: out of sight, and closed again at the end. To
    // write: in a window where somebody is there, so that the change can be undone. To show: in a window, whether it can
    // be written or not. The office asks for its password. Refused in words: a file that is not there any more, that is
    // no logbook, and to write one that is read-only or open elsewhere.
    Logbook(const Context& context, const std::string& url, Use use);
    ~Logbook();
    Logbook(const Logbook&) = delete;
    Logbook& operator=(const Logbook&) = delete;

    [[nodiscard]] const Document& document() const { return document_; }
    [[nodiscard]] LogbookTable table(std::string_view name) const { return {document_, name}; }
    [[nodiscard]] std::string word(std::string_view list, std::size_t place) const;
    [[nodiscard]] std::string gym() const;

    // A copy with date and time in its name, in a folder beside the file; copies older than 30 days go. Before a change.
    void keep_copy() const;
    void store() const;

  private:
    const Context& context_;
    std::string url_;
    Document document_;
    bool close_ = false;
};

// Refuses a workbook that is no logbook, or has another layout.
void check_logbook(const Document& document);

// A logbook's file, asked for where none is remembered; the argument Logbook answers for the person. Nothing where the
// person cancels.
[[nodiscard]] std::optional<std::string> ask_for_logbook(Context& context);

} // namespace pacecells
