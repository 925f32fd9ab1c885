// The announcement and tonight's names are pasted as they were written. Both come back as tables to look at, with what was
// not understood marked in its place; then they fill the sheets Workout and Roster in one step.
#include "read_as_written.h"

#include "announced.h"
#include "dialog.h"
#include "from_logbook.h"
#include "prints.h"
#include "roster_list.h"

#include "pacecells/announcement.h"
#include "pacecells/words.h"

#include <com/sun/star/util/XCloseable.hpp>

namespace pacecells {

namespace {

using css::uno::Any;

// What was pasted, as it is understood.
struct Read {
    std::string text;
    Announcement announcement;
    AnnouncedNames names;
    ColumnTable list; // the names, as Add athletes takes them
};

Read read(const std::string& text, const std::string& names, const UsualPaces& usual, Language language) {
    Read all{text, read_announcement(text, language), {}, {}};
    for (auto& station : all.announcement.stations)
        station.movement = usual.name_of(station.movement);
    const auto& divisions = all.announcement.divisions;
    all.names = read_names(names, divisions, all.announcement.team > 1);
    for (const auto& person : all.names.people) {
        std::vector<std::string> cells(roster_columns);
        cells[name_column] = person.name;
        cells[division_column] = person.division.empty() && divisions.size() == 1 ? divisions.front() : person.division;
        cells[team_column] = person.team;
        all.list.rows.push_back(std::move(cells));
    }
    return all;
}

// The roster as it is with the divisions of the announcement.
Roster roster_for(const EventCells& event, const Announcement& announcement) {
    Roster roster(event);
    roster.choices[0].words = announcement.divisions;
    return roster;
}

RosterPlan people_plan(const EventCells& event, const Read& read, const Meanings& meanings) {
    auto plan = plan_for(roster_for(event, read.announcement), read.list, meanings);
    for (auto& athlete : plan.athletes)
        if (athlete.added && athlete.cells[division_column].empty())
            athlete.happens += "; " + tr("no division");
    for (auto& athlete : plan.athletes)
        if (athlete.added && !athlete.cells[team_column].empty())
            athlete.happens += "; " + tr("team %1", athlete.cells[team_column]);
    return plan;
}

// What keeps all of it from being written.
void refuse(const Read& read, const AnnouncementRoom& room) {
    if (read.text.find_first_not_of(" \t\r\n") == std::string::npos)
        throw Refusal{tr("Paste the announcement first.")};
    if (read.announcement.stations.empty())
        throw Refusal{tr("No station was found in the announcement.")};
    refuse_too_large(read.announcement, room);
}

bool agreed(Context& context, const EventCells& event, const Read& read) {
    const auto open = open_questions(read.announcement);
    if (open > 0 &&
        !context.ask(
            tr("Open questions: %1. What they are about stays blank on the sheet Workout. Fill it in as it is?",
               std::to_string(open)),
            "Open"))
        return false;
    return !has_stations(event) ||
           context.ask(tr("The sheet Workout has stations already. Replace the workout there?"), "Overwrite");
}

std::string report(const Read& read, const RosterPlan& people, const UsualPaces& usual) {
    auto text = tr("Filled in: %1.", short_text(read.announcement));
    for (const auto& line : remarks(read.announcement, usual))
        text += "\n" + line;
    for (const auto& mark : read.names.marks)
        text += "\n" + tr(mark.reason);
    return people.athletes.empty() ? text : text + "\n" + people.report();
}

// In one step. What fails half way is taken back.
// What the logbook knows of the people, in sentences.
std::string write(const EventCells& event, const Logbook* logbook, const Read& read, const RosterPlan& people,
                  const UsualPaces& usual) {
    Undo undo(event.document(), tr("Read as written"));
    if (logbook)
        take_usual_values(event, *logbook);
    write_announcement(event, read.announcement, usual, event.language());
    write_people(event, people);
    auto known = logbook ? complete_people(event, *logbook, people.names()) : std::string();
    fit_prints(event.document());
    undo.done();
    return known;
}

// The window; false where it is cancelled.
bool read_in_window(Context& context, const EventCells& event, const UsualPaces& usual, Read& all, RosterPlan& people) {
    constexpr int width = 480;
    constexpr int left = 280;
    const auto room = room_of(event);
    Dialog dialog(context, tr("Read as written"), width);
    dialog.left(left);
    const auto text = dialog.memo(tr("~Announcement, as it was written"), "", 56, false);
    dialog.right();
    const auto names = dialog.memo(tr("Tonight’s ~names, one per line"), "", 56, false);
    dialog.whole();
    dialog.left(left);
    const auto stations = dialog.table(tr("What was understood"),
                                       {tr("Movement"), tr("Amount"), tr("Unit"), tr("Load, kg"), tr("Usual pace")},
                                       112, {5, 5, 3, 3, 4});
    dialog.right();
    const auto list = dialog.table(tr("Who is added"), {tr("Name"), tr("Division"), tr("Preview")}, 112, {4, 3, 5});
    dialog.whole();
    const auto marks =
        dialog.memo(tr("In its place: what was not understood, is open or was taken to be likely"), "", 64, true);
    dialog.paragraph(tr("To correct something, change the text above. Usual paces are common practice: correct them on "
                        "the sheet Workout."));
    Meanings meanings;
    const auto language = event.language();
    const auto look = [&] {
        all = read(dialog.text(text), dialog.text(names), usual, language);
        people = people_plan(event, all, meanings);
    };
    dialog.on_change([&] {
        look();
        dialog.set_rows(stations, understood(all.announcement, usual));
        Dialog::Rows rows;
        for (const auto& athlete : people.athletes)
            rows.push_back({athlete.cells[name_column], athlete.cells[division_column], athlete.happens});
        dialog.set_rows(list, rows);
        std::string shown = all.announcement.marks.empty() ? "" : with_marks(all.text, all.announcement.marks);
        for (const auto& line : remarks(all.announcement, usual))
            shown += (shown.empty() ? "" : "\n") + line;
        for (const auto& mark : all.names.marks)
            shown += (shown.empty() ? "" : "\n") +
                     dialog.text(names).substr(mark.range.from, mark.range.to - mark.range.from) + ": " +
                     tr(mark.reason);
        dialog.set_text(marks, shown);
    });
    return dialog.run(tr("~Fill in"), [&] {
        look();
        refuse(all, room);
        if (!ask_all(context, roster_for(event, all.announcement), all.list, meanings))
            return false;
        look();
        return agreed(context, event, all);
    });
}

Document new_event(Context& context) {
    return need<css::sheet::XSpreadsheetDocument>(
        load(context, template_url(context, "event.ots"),
             {{"AsTemplate", Any(true)}, {"Hidden", Any(!context.interactive())}}));
}

void read_as_written(Context& context) {
    if (!find_name(context.document(), "workout").is())
        return read_into_new_event(context);
    (void)read_into(context, context.document());
}

const Command command{"read-as-written", read_as_written};

} // namespace

bool read_into(Context& context, const Document& document) {
    const EventCells event(document);
    const auto logbook = logbook_to_take_from(context);
    const auto usual = logbook ? UsualPaces(*logbook) : UsualPaces();
    Read all;
    RosterPlan people;
    if (context.interactive()) {
        if (!read_in_window(context, event, usual, all, people))
            return false;
    } else {
        all = read(context.argument("Text", ""), context.argument("Names", ""), usual, event.language());
        refuse(all, room_of(event));
        Meanings meanings;
        if (!ask_all(context, roster_for(event, all.announcement), all.list, meanings) || !agreed(context, event, all))
            return false;
        people = people_plan(event, all, meanings);
    }
    const auto known = write(event, logbook.get(), all, people, usual);
    context.say(report(all, people, usual) + (known.empty() ? "" : "\n" + known));
    return true;
}

void read_into_new_event(Context& context) {
    const auto document = new_event(context);
    try {
        if (read_into(context, document))
            return;
    } catch (...) { // rather none than an empty one
        need<css::util::XCloseable>(document)->close(true);
        throw;
    }
    need<css::util::XCloseable>(document)->close(true);
}

} // namespace pacecells
