// Everything that the logbook keeps about one person, gone: rows, season, the dated copies, the office's backups of both, and
// the logs of heats.
#include "heat_day_journal.h"
#include "logbook_copies.h"
#include "people.h"
#include "store.h"

#include "pacecells/forgotten.h"
#include "pacecells/heat_log.h"
#include "pacecells/words.h"

#include <com/sun/star/document/MacroExecMode.hpp>
#include <com/sun/star/document/XUndoManagerSupplier.hpp>
#include <com/sun/star/frame/XModel.hpp>
#include <com/sun/star/sheet/CellFlags.hpp>
#include <com/sun/star/sheet/XSheetOperation.hpp>
#include <com/sun/star/ucb/SimpleFileAccess.hpp>
#include <com/sun/star/util/XCloseable.hpp>

#include <algorithm>
#include <chrono>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <set>

namespace pacecells {

namespace {

using css::uno::Any;

constexpr std::string_view tables_of_people[] = {"people", "tests", "results", "season"};

// How many rows went.
std::size_t forget_in(const Document& document, const std::string& name) {
    using namespace css::sheet::CellFlags;
    std::size_t rows = 0;
    for (const auto table : tables_of_people) {
        const LogbookTable read(document, table);
        const auto cells = named_range(document, "logbook_" + std::string(table));
        const auto where = address(cells);
        for (const auto row : read.rows()) {
            if (!same_name(read.text(row, "name"), name))
                continue;
            const auto all = cells->getCellRangeByPosition(0, row, where.EndColumn - where.StartColumn, row);
            need<css::sheet::XSheetOperation>(all)->clearContents(VALUE | DATETIME | STRING | FORMULA | ANNOTATION);
            ++rows;
        }
    }
    return rows;
}

void forget_steps(const Document& document) { // a step back would bring the name again
    need<css::document::XUndoManagerSupplier>(document)->getUndoManager()->clear();
}

// The key of a logbook with a password, which its copies have too; void where there is none.
Any key_of(const Document& document) {
    for (const auto& argument : need<css::frame::XModel>(document)->getArgs())
        if (argument.Name == "EncryptionData")
            return argument.Value;
    return {};
}

// The copies that could not be changed.
std::vector<std::string> forget_in_copies(const Context& context, const std::string& url, const std::string& name,
                                          const Any& key) {
    std::vector<std::string> left;
    const auto files = css::ucb::SimpleFileAccess::create(context.component());
    const auto folder = utf16(folder_of_copies(url));
    if (!files->exists(folder))
        return left;
    const std::pair<const char*, Any> hidden{"Hidden", Any(true)};
    const std::pair<const char*, Any> macros{"MacroExecutionMode", Any(css::document::MacroExecMode::NEVER_EXECUTE)};
    for (const auto& copy : files->getFolderContents(folder, false)) {
        css::uno::Reference<css::lang::XComponent> opened;
        try {
            opened = key.hasValue() ? load(context, utf8(copy), {hidden, macros, {"EncryptionData", key}})
                                    : load(context, utf8(copy), {hidden, macros});
            const auto document = need<css::sheet::XSpreadsheetDocument>(opened);
            check_logbook(document);
            if (forget_in(document, name) > 0)
                need<css::frame::XStorable>(document)->store();
        } catch (const css::uno::Exception&) {
            left.push_back(shown_path(utf8(copy)));
        } catch (const Refusal&) {
            left.push_back(shown_path(utf8(copy)));
        }
        try {
            if (opened.is())
                need<css::util::XCloseable>(opened)->close(true);
        } catch (const css::uno::Exception&) { // it will go when the office lets it
        }
        for (auto& backup : remove_backups(context, utf8(copy)))
            left.push_back(std::move(backup));
    }
    return left;
}

std::string text_of_file(const std::filesystem::path& file) {
    std::ifstream stream(file, std::ios::binary);
    return {std::istreambuf_iterator<char>(stream), {}};
}

// Logs of heats, those put aside too. Gives those that could not be changed: of a heat that runs, or on a full disk.
std::vector<std::string> forget_in_logs(const Context& context, const std::string& name) {
    constexpr std::chrono::hours a_day{24};
    std::vector<std::string> left;
    std::error_code problem;
    std::vector<std::filesystem::path> files;
    for (std::filesystem::directory_iterator file(log_folder(context), problem), end; !problem && file != end;
         file.increment(problem))
        if (file->path().filename().string().find(".heat") != std::string::npos)
            files.push_back(file->path());
    for (const auto& file : files) {
        const auto text = text_of_file(file);
        const auto without = log_without(text, name);
        if (without == text)
            continue;
        const auto log = read_heat_log(text);
        const bool runs = log && !log->ended &&
                          std::filesystem::file_time_type::clock::now() - last_write_time(file, problem) < a_day;
        const auto unfinished = file.string() + ".part";
        if (!runs)
            std::ofstream(unfinished, std::ios::binary) << without;
        if (runs || text_of_file(unfinished) != without)
            left.push_back(file.string());
        else
            std::filesystem::rename(unfinished, file, problem);
    }
    return left;
}

// All names in the logbook, also of those who are in no row of the people any more.
std::vector<std::string> all_names(const Logbook& logbook) {
    std::vector<std::string> names;
    std::set<std::string> seen;
    for (const auto table : tables_of_people) {
        const auto read = logbook.table(table);
        for (const auto row : read.rows())
            if (auto name = read.text(row, "name"); !name.empty() && seen.insert(fold_name(name)).second)
                names.push_back(std::move(name));
    }
    return names;
}

void forget_person(Context& context) {
    const auto url = ask_for_logbook(context);
    if (!url)
        return;
    const Logbook logbook(context, *url, Logbook::Use::write);
    const auto names = all_names(logbook);
    if (names.empty())
        throw Refusal{tr("There is nobody in the logbook yet.")};
    Form form(context, tr("Forget a person"));
    std::string name;
    ask_for_person(context, form, names);
    if (!form.fill(tr("~Forget"), [&](const Form& typed) { name = names[person_in(typed, names)]; }))
        return;
    if (!context.ask(tr("All that the logbook, its dated copies and the logs of heats keep about %1 will be deleted: "
                        "tests, results, season. "
                        "This cannot be undone. Delete it?",
                        name),
                     "Delete"))
        return;
    const auto rows = forget_in(logbook.document(), name);
    forget_steps(logbook.document());
    logbook.store();
    auto left = forget_in_copies(context, *url, name, key_of(logbook.document()));
    for (auto& backup : remove_backups(context, *url))
        left.push_back(std::move(backup));
    for (auto& log : forget_in_logs(context, name))
        left.push_back(std::move(log));
    auto said =
        tr("%1 is gone from the logbook, its copies and the logs of heats, %2 rows. Other workbooks that you "
           "saved, and the office's backups of them, are not touched: events hold names on their sheets, and of "
           "teams with a number the first names on Results.",
           name, std::to_string(rows));
    for (const auto& copy : left)
        said += "\n" + tr("This file could not be changed, so delete it yourself: %1", copy);
    context.say(said);
}

const Command forget_command{"forget-person", forget_person};

} // namespace

} // namespace pacecells
