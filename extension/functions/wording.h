// What cells say, in the language of their workbook: an .ods is calculated when it is opened and an .xlsx when it is
// edited, so the office's language would mix cards of two languages.
#pragma once

#include "pacecells/athlete_plan.h"
#include "pacecells/result.h"
#include "pacecells/sets.h"
#include "pacecells/words.h"

#include <cstdint>
#include <string>
#include <string_view>

namespace pacecells {

// Who knows the translations: the extension, which holds them. Without it sentences stay English.
using Translator = std::string_view (*)(std::string_view english, Language language);
using DateOrder = std::string_view (*)(Language language); // DD.MM.YYYY
void translate_with(Translator translator, DateOrder date_order);

// 2026-03-14, as the model writes a date, in another order and with other marks; other texts stay.
[[nodiscard]] std::string in_date_order(const std::string& text, std::string_view order);

[[nodiscard]] std::string spoken(const Said& said, Language language);
[[nodiscard]] std::string spoken(const Error& error, Language language);
// 2.5 or 2,5.
[[nodiscard]] std::string spoken(double number, Language language);

// A scheme as a coach says it: "6", "5-4", "singles", "2, then singles".
[[nodiscard]] std::string scheme_text(const Scheme& scheme, Language language);
enum class SetsDetail : std::uint8_t { all, no_fall_back, scheme_alone };
// With the pause, and what to go on with: "3-3 (5 s), then 2-2-2".
[[nodiscard]] std::string sets_text(const StationSets& sets, Language language, SetsDetail detail = SetsDetail::all);
// The sets of all stations in one line; in a team what each does too: "Rowing each 20 · Wall balls each 15: 8-7".
[[nodiscard]] std::string all_sets_text(const Workout& workout, const Plan& plan, SetsDetail detail = SetsDetail::all);

// What one person of a team does, in turns and how long the first is: "Rowing 10-10 (0:35) · Wall balls 8-7 (0:20)".
[[nodiscard]] std::string turns_text(const Workout& workout, const Plan& plan, std::string_view between);

// A rate in the unit of the workout: "615 cal/h", "205 W", "1:52".
[[nodiscard]] std::string rate_text(const Workout& workout, Machine machine, CaloriesPerHour rate);
// The monitor counts 300 cal/h at no power: below it any rate does.
[[nodiscard]] bool any_rate_makes(Machine machine, CaloriesPerHour needed);
[[nodiscard]] std::string machine_label(Machine machine, Language language); // "SKI"

// "17 min AMRAP"
[[nodiscard]] std::string format_text(const Workout& workout, std::size_t division);
// "6 sandbags 30 kg"
[[nodiscard]] std::string station_line(const Workout& workout, std::size_t division, std::size_t station);
// "17 min AMRAP, scaled", and the same with all stations behind it.
[[nodiscard]] std::string workout_head(const Workout& workout, std::size_t division);
[[nodiscard]] std::string workout_line(const Workout& workout, std::size_t division);

// How the practice before the start goes.
[[nodiscard]] std::string rehearsal_text(const Workout& workout, const Plan& plan);
// The message for the athlete's phone.
[[nodiscard]] std::string message_text(const Workout& workout, const Athlete& athlete, const Plan& plan,
                                       const std::string& notes);

} // namespace pacecells
