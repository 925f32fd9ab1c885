// What the results of an event would change in the logbook, and the writing of it.
#pragma once

#include "event_results.h"
#include "logbook.h"

#include <optional>
#include <string>
#include <vector>

namespace pacecells {

// The tables that results go into.
struct ResultTables {
    explicit ResultTables(const Logbook& logbook)
        : people(logbook.table("people")), results(logbook.table("results")), events(logbook.table("events")),
          movements(logbook.table("movements")) {}
    LogbookTable people, results, events, movements;
};

// What will happen to one person's result.
struct ResultLine {
    const PersonResult* person = nullptr;
    std::optional<sal_Int32> row = {}; // of the table, where the result is there already
    bool new_person = false;
    bool differs = false; // from the logbook: there is something to write
    bool refused = false; // by the person at the keyboard
    std::string happens = {};
    std::string differences = {}; // old beside new

    [[nodiscard]] bool written() const { return differs && !refused; }
};

struct ResultsPlan {
    std::vector<ResultLine> lines;
    std::vector<const LogbookRow*> movements; // new ones
    std::optional<sal_Int32> event_row;

    [[nodiscard]] std::size_t fresh() const; // of those that will be written
    [[nodiscard]] std::size_t changed() const;
    [[nodiscard]] bool empty() const { return fresh() + changed() == 0; }
    [[nodiscard]] std::string summary() const;
    [[nodiscard]] std::string report() const; // everybody for whom something happens
    // By name, those between semicolons.
    void refuse(const std::string& names);
};

// Each person is known by name, once; a name that is only nearly the same is left out and asked about. `event` is to
// live as long as the plan.
[[nodiscard]] ResultsPlan plan_results(const ResultTables& tables, const EventResults& event);
void write_results(ResultTables& tables, const ResultsPlan& plan, const EventResults& event, bool with_movements);

void put(LogbookTable& table, sal_Int32 row, const LogbookRow& values);

} // namespace pacecells
