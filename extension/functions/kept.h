// What was made from contents of cells, kept and found again by those contents.
#pragma once

#include "pacecells/table.h"

#include <optional>
#include <string>
#include <unordered_map>
#include <utility>

namespace pacecells {

// The contents of a table as bytes, to be compared: a number by its bits, a text with its length.
inline void append(std::string& bytes, const Table& table) {
    const auto append_size = [&](std::size_t size) { bytes.append(reinterpret_cast<const char*>(&size), sizeof size); };
    append_size(table.columns);
    for (const auto& cell : table.cells) {
        bytes += static_cast<char>(cell.index());
        if (const auto* number = std::get_if<double>(&cell)) {
            bytes.append(reinterpret_cast<const char*>(number), sizeof *number);
        } else if (const auto* text = std::get_if<std::string>(&cell)) {
            append_size(text->size());
            bytes += *text;
        }
    }
}

// What was made from contents, the latest few; all go when there are too many, which a workbook does not reach.
template <class Value>
class Kept {
  public:
    explicit Kept(std::size_t most) : most_(most) {}

    [[nodiscard]] const Value* find(const std::string& contents) const {
        const auto found = values_.find(contents);
        return found == values_.end() ? nullptr : &found->second;
    }

    template <class Make>
    const Value& of(std::string contents, Make make) {
        if (const auto* value = find(contents))
            return *value;
        if (values_.size() >= most_)
            values_.clear();
        return values_.emplace(std::move(contents), make()).first->second;
    }

  private:
    std::size_t most_;
    std::unordered_map<std::string, Value> values_;
};

// What was computed last, for one source (a pointer that owns) and something else: a table is asked for cell by cell.
template <class Source, class Key, class Value>
class Latest {
  public:
    template <class Make>
    const Value& of(const Source& source, Key key, Make make) {
        if (!value_ || source_ != source || !(key_ == key)) {
            value_.emplace(make());
            source_ = source; // kept, so that no other can be where it was
            key_ = key;
        }
        return *value_;
    }

  private:
    Source source_;
    Key key_{};
    std::optional<Value> value_;
};

} // namespace pacecells
