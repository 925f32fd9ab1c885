// Copies to pass on. Share as values: formulas replaced by what they show, so that it reads the same where Pacecells is
// missing. Copy without people: the workout and its settings, for a coach elsewhere. The workbook itself is not touched,
// and a copy gets its name only when it is complete.
#include "copy.h"
#include "printed.h"
#include "store.h"
#include "values.h"
#include "wording.h"

#include <com/sun/star/container/XNamed.hpp>
#include <com/sun/star/document/XDocumentPropertiesSupplier.hpp>
#include <com/sun/star/frame/XModel.hpp>
#include <com/sun/star/sheet/CellFlags.hpp>
#include <com/sun/star/sheet/XCalculatable.hpp>
#include <com/sun/star/sheet/XSheetOperation.hpp>
#include <osl/file.hxx>

#include <algorithm>
#include <cctype>

namespace pacecells {

namespace {

using css::uno::Any;

struct Kind {
    std::string ending;
    const char* filter;
    const char* options; // of the filter
};

// CSV: the sheet in front, semicolons, UTF-8, texts in quotes, cells as they show.
constexpr const char* csv_options = "59,34,76,1,,0,true,true,false";

const Kind& kind_of_file(const std::string& url) {
    static const Kind kinds[] = {{".ods", "calc8", ""},
                                 {".xlsx", "Calc MS Excel 2007 XML", ""},
                                 {".pdf", "calc_pdf_Export", ""},
                                 {".csv", "Text - txt - csv (StarCalc)", csv_options}};
    std::string lower = url;
    std::transform(lower.begin(), lower.end(), lower.begin(),
                   [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    for (const auto& kind : kinds)
        if (lower.ends_with(kind.ending))
            return kind;
    throw Refusal{tr("The file name must end in .ods, .xlsx, .csv or .pdf.")};
}

void store(const Context& context, const Document& document, const std::string& url, const Kind& kind) {
    store_whole(context, need<css::frame::XStorable>(document), url,
                {{"FilterName", Any(rtl::OUString::createFromAscii(kind.filter))},
                 {"FilterOptions", Any(rtl::OUString::createFromAscii(kind.options))}});
}

// The workbook's name without its ending, for the window that asks for the copy's.
std::string proposed_name(const Document& document, const std::string& what) {
    auto name = utf8(need<css::frame::XModel>(document)->getURL());
    name = name.substr(name.find_last_of('/') + 1);
    name = name.substr(0, name.find_last_of('.'));
    return (name.empty() ? tr("Workbook") : decoded(name)) + " " + what;
}

// Whether the file may be written; refused where it is the workbook itself.
bool may_write(Context& context, const Document& document, const std::string& url) {
    if (utf8(need<css::frame::XModel>(document)->getURL()) == url)
        throw Refusal{tr("That is the workbook itself. Choose another name.")};
    return context.interactive() || !exists(url) ||
           context.ask(tr("%1 already exists. Overwrite it?", shown_path(url)), "Overwrite");
}

// Of a document with more sheets newer offices stop, saved as text, to say that one was saved, even where a program asked.
void keep_only(const rtl::OUString& name, const Document& document) {
    const auto sheets = document->getSheets();
    for (const auto& other : sheets->getElementNames())
        if (other != name)
            sheets->removeByName(other);
}

void share(Context& context) {
    const auto document = context.document();
    const auto url = save_file(context, tr("Share as values"), proposed_name(document, tr("values")),
                               {{tr("Spreadsheet (.ods)"), "*.ods"},
                                {tr("Workbook (.xlsx)"), "*.xlsx"},
                                {tr("This sheet as text (.csv)"), "*.csv"},
                                {"PDF", "*.pdf"}});
    if (!url)
        return;
    const auto& kind = kind_of_file(*url);
    if (!may_write(context, document, *url))
        return;
    if (kind.ending == ".pdf") { // what it holds is values already
        store_pdf(context, document, *url);
    } else {
        const auto front = need<css::container::XNamed>(active_sheet(context))->getName();
        const Copy copy(context, document);
        flatten(copy, document);
        forget_printed(copy.document());
        if (kind.ending == ".csv")
            keep_only(front, copy.document());
        else
            copy.protect_again();
        store(context, copy.document(), *url, kind);
    }
    context.say(tr("Saved: %1", shown_path(*url)));
}

// --- without people ----------------------------------------------------------------------------------------------

void clear(const Range& range) {
    using namespace css::sheet::CellFlags;
    need<css::sheet::XSheetOperation>(range)->clearContents(VALUE | DATETIME | STRING | ANNOTATION);
}

// All that is typed about people; what is calculated from it goes with it.
void clear_people(const Document& document) {
    const EventCells event(document);
    for (const auto* name :
         {"roster_people", "tests_name", "tests_row", "tests_ski", "tests_bike", "tests_armbike", "tests_sets",
          "results_name", "results_heat", "results_lane", "results_partial", "results_finish", "results_left",
          "results_tiebreak", "results_out", "results_clocks", "results_stamps", "review_name"})
        if (const auto range = event.find(name); range.is())
            clear(range);
    // and what stands in the tables outside the columns that have names, a column that somebody added for instance
    for (const auto& [table, heads] : {std::pair{"roster", 2}, std::pair{"tests", 2}, std::pair{"results", 2}})
        if (const auto range = event.find(table); range.is()) {
            const auto where = address(range);
            clear(range->getCellRangeByPosition(0, heads, where.EndColumn - where.StartColumn,
                                                where.EndRow - where.StartRow));
        }
    const auto properties = need<css::document::XDocumentPropertiesSupplier>(document)->getDocumentProperties();
    properties->resetUserData(rtl::OUString());
    properties->setDescription(rtl::OUString());
    properties->setSubject(
        utf16(spoken(say("A coach's plan is not medical advice. Stop if you have chest pain, feel faint "
                         "or have unusual pain."),
                     event.language()))); // as every workbook has it
    properties->setKeywords({});
    forget_printed(document);
}

void copy_without_people(Context& context) {
    const auto document = context.document();
    const EventCells refused_elsewhere(document);
    const auto url = save_file(context, tr("Copy without people"), proposed_name(document, tr("without people")),
                               {{tr("Spreadsheet (.ods)"), "*.ods"}});
    if (!url)
        return;
    const auto& kind = kind_of_file(*url);
    if (kind.ending != ".ods")
        throw Refusal{tr("A copy to go on working with ends in .ods.")};
    if (!may_write(context, document, *url))
        return;
    const Copy copy(context, document);
    clear_people(copy.document());
    need<css::sheet::XCalculatable>(copy.document())->enableAutomaticCalculation(true);
    need<css::sheet::XCalculatable>(copy.document())->calculateAll();
    copy.protect_again();
    store(context, copy.document(), *url, kind);
    context.say(tr("Saved: %1", shown_path(*url)));
}

const Command share_command{"share", share};
const Command without_people_command{"copy-without-people", copy_without_people};

} // namespace

} // namespace pacecells
