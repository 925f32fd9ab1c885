// Whose row is it: a name as somebody typed it, and the names of a list.
//
// The same by rule is same_name (words.h): outer and doubled spaces and the case of letters say nothing. Nearly the same
// is never taken for the same: whoever finds such a name asks.
#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

namespace pacecells {

// Not the same by rule, but perhaps one person: an accent more or less, ue for ü, a hyphen for a space; the words in
// another order; or one letter other, more, less or swapped with its neighbour, in names of at least five letters.
// An initial or a number tells people of one name apart, so a difference there is none of these (judgement).
// Example: "Jose Brandel", "Brandel, José" and "José Brendel" are nearly "José Brandel"; "Ida Quell A" is not "Ida Quell B".
[[nodiscard]] bool nearly_same_name(std::string_view a, std::string_view b);

// The words of a name as plain letters in lower case, sorted, so that their order says nothing.
// Example: "Müller-Brandel, José" has "brandel", "jose" and "muller".
[[nodiscard]] std::vector<std::string> plain_words(std::string_view name);

struct NameMatch {
    std::vector<std::size_t> same;   // places in the list; more than one: people of one name, to be told apart first
    std::vector<std::size_t> nearly; // looked for only where none is the same: to be asked about

    [[nodiscard]] bool sure() const { return same.size() == 1; }
};

// A list of names, prepared once for many questions. Blank names are nobody's.
class NameList {
  public:
    explicit NameList(std::span<const std::string> names);
    [[nodiscard]] NameMatch find(std::string_view name) const;

  private:
    std::unordered_map<std::string, std::vector<std::size_t>> folded_;
    std::vector<std::vector<std::string>> plain_; // the words of each name, without accents, sorted
};

} // namespace pacecells
