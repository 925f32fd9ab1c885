#include "logbook.h"

#include "logbook_copies.h"
#include "logbook_place.h"
#include "store.h"

#include <com/sun/star/awt/XTopWindow.hpp>
#include <com/sun/star/container/XEnumerationAccess.hpp>
#include <com/sun/star/document/BrokenPackageRequest.hpp>
#include <com/sun/star/document/MacroExecMode.hpp>
#include <com/sun/star/document/NoSuchFilterRequest.hpp>
#include <com/sun/star/frame/Desktop.hpp>
#include <com/sun/star/frame/XModel.hpp>
#include <com/sun/star/sheet/CellFlags.hpp>
#include <com/sun/star/sheet/XCellRangesQuery.hpp>
#include <com/sun/star/sheet/XSheetCellRanges.hpp>
#include <com/sun/star/task/InteractionHandler.hpp>
#include <com/sun/star/ucb/SimpleFileAccess.hpp>
#include <com/sun/star/util/XCloseable.hpp>
#include <cppuhelper/implbase1.hxx>

#include <algorithm>

namespace pacecells {

namespace {

using css::uno::Any;
using css::uno::Reference;

constexpr sal_Int32 first_row = 2; // below keys and headings

// The last row of a range with something in it, counted from its top.
sal_Int32 last_filled(const Range& range) {
    using namespace css::sheet::CellFlags;
    const auto found =
        need<css::sheet::XCellRangesQuery>(range)->queryContentCells(VALUE | DATETIME | STRING | FORMULA);
    sal_Int32 last = address(range).StartRow;
    for (const auto& one : found->getRangeAddresses())
        last = std::max(last, one.EndRow);
    return last - address(range).StartRow;
}

Document open_already(const Context& context, const std::string& url) {
    const auto all = css::frame::Desktop::create(context.component())->getComponents()->createEnumeration();
    while (all->hasMoreElements()) {
        const Reference<css::frame::XModel> model(all->nextElement(), css::uno::UNO_QUERY);
        if (model.is() && utf8(model->getURL()) == url)
            return as<css::sheet::XSpreadsheetDocument>(model);
    }
    return {};
}

// The office's own questions, such as for a password; but a damaged file is not repaired by guess: there are copies.
class Questions : public cppu::WeakImplHelper1<css::task::XInteractionHandler> {
  public:
    explicit Questions(const Context& context)
        : office_(css::task::InteractionHandler::createWithParent(context.component(), nullptr)) {}

    void SAL_CALL handle(const Reference<css::task::XInteractionRequest>& request) override {
        css::document::BrokenPackageRequest broken;
        css::document::NoSuchFilterRequest unknown;
        const auto what = request->getRequest();
        if (!(what >>= broken) && !(what >>= unknown))
            office_->handle(request);
    }

  private:
    Reference<css::task::XInteractionHandler2> office_;
};

Document open(const Context& context, const std::string& url, Logbook::Use use, bool asking) {
    const std::pair<const char*, Any> hidden{"Hidden", Any(use == Logbook::Use::read || !asking)};
    const std::pair<const char*, Any> read_only{"ReadOnly", Any(use == Logbook::Use::read)};
    const std::pair<const char*, Any> macros{"MacroExecutionMode", Any(css::document::MacroExecMode::NEVER_EXECUTE)};
    try {
        if (!asking)
            return as<css::sheet::XSpreadsheetDocument>(load(context, url, {hidden, read_only, macros}));
        const Reference<css::task::XInteractionHandler> asks(new Questions(context));
        return as<css::sheet::XSpreadsheetDocument>(
            load(context, url, {hidden, read_only, macros, {"InteractionHandler", Any(asks)}}));
    } catch (const css::uno::Exception&) { // no such form of file, or no password
        return {};
    } catch (const Refusal&) {
        return {};
    }
}

// Whether a file that does not open can be read all the same: then a full disk or a folder has no room for the office's
// lock.
bool only_readable(const Context& context, const std::string& url) {
    const auto document = open(context, url, Logbook::Use::read, false);
    if (document.is())
        need<css::util::XCloseable>(document)->close(true);
    return document.is();
}

} // namespace

// --- a table -----------------------------------------------------------------------------------------------------

LogbookTable::LogbookTable(const Document& document, std::string_view name)
    : name_(name), cells_(find_name(document, "logbook_" + name_)) {
    if (!cells_.is())
        throw Refusal{tr("This logbook has no table %1. Undo what was deleted there.", "logbook_" + name_)};
    const auto where = address(cells_);
    room_ = where.EndRow - where.StartRow + 1;
    const auto last = std::max(last_filled(cells_), first_row - 1);
    values_ = values_of(cells_->getCellRangeByPosition(0, 0, where.EndColumn - where.StartColumn, last));
    for (sal_Int32 i = 0; i < values_[0].getLength(); ++i)
        if (const auto key = text_of(values_[0][i]); !key.empty())
            columns_.emplace(key, i);
    for (sal_Int32 row = first_row; row < values_.getLength(); ++row)
        if (!std::ranges::all_of(values_[row], [](const Any& one) { return blank(one); }))
            filled_.push_back(row);
}

sal_Int32 LogbookTable::column(std::string_view key) const {
    const auto found = columns_.find(key);
    if (found == columns_.end())
        throw Refusal{
            tr("The table %1 of the logbook has no column with the key %2. Undo what was deleted there.", name_, key)};
    return found->second;
}

const Any& LogbookTable::value(sal_Int32 row, std::string_view key) const {
    static const Any none;
    const auto place = column(key);
    return row < values_.getLength() ? values_[row][place] : none;
}

std::optional<double> LogbookTable::number(sal_Int32 row, std::string_view key) const {
    double number = 0;
    return (value(row, key) >>= number) ? std::optional(number) : std::nullopt;
}

sal_Int32 LogbookTable::new_row() {
    const auto row = filled_.empty() ? first_row : filled_.back() + 1;
    if (row >= room_)
        throw Refusal{tr("The table %1 of the logbook is full. Delete rows that are not needed any more.", name_)};
    filled_.push_back(row);
    return row;
}

void LogbookTable::put(sal_Int32 row, std::string_view key, const std::string& text) {
    if (text.empty())
        put_blank(cells_, column(key), row);
    else
        put_text(cells_, column(key), row, text);
}

void LogbookTable::put(sal_Int32 row, std::string_view key, const std::optional<double>& number) {
    if (number)
        put_number(cells_, column(key), row, *number);
    else
        put_blank(cells_, column(key), row);
}

// --- the workbook ------------------------------------------------------------------------------------------------

void check_logbook(const Document& document) {
    constexpr double layout = 1;
    const auto known_by = find_name(document, "logbook");
    if (!known_by.is() || text_of(values_of(known_by)[0][0]) != "pacecells.logbook")
        throw Refusal{tr("This workbook is no logbook of Pacecells.")};
    double version = 0;
    values_of(known_by)[0][1] >>= version;
    if (version > layout)
        throw Refusal{tr("This logbook was made by a newer Pacecells. Install that one.")};
    if (version != layout)
        throw Refusal{
            tr("This logbook has a layout that this version of Pacecells does not read. Make a new logbook and "
               "copy your rows over.")};
}

Logbook::Logbook(const Context& context, const std::string& url, Use use) : context_(context), url_(url) {
    document_ = open_already(context, url);
    const bool was_open = document_.is();
    if (!was_open) {
        if (!css::ucb::SimpleFileAccess::create(context.component())->exists(utf16(url)))
            throw Refusal{tr("The logbook is not there any more: %1. Open it from its new place with Open the logbook.",
                             shown_path(url))};
        if (use == Use::write && locked(context, url))
            throw Refusal{tr("The logbook is open elsewhere: %1. Close it there, then try again.", shown_path(url))};
        document_ = open(context, url, use, context.interactive());
        if (!document_.is() && use == Use::write && only_readable(context, url))
            throw Refusal{
                tr("%1 could not be saved. Check that the folder exists, has space and is writable.", shown_path(url))};
        if (!document_.is())
            throw Refusal{
                tr("%1 cannot be opened: it has a password, or it is damaged. Dated copies of the last 30 days "
                   "are in %2.",
                   shown_path(url), shown_path(folder_of_copies(url)))};
        close_ = use == Use::read || !context.interactive();
    }
    try {
        check_logbook(document_);
        if (use == Use::write && need<css::frame::XStorable>(document_)->isReadonly())
            throw Refusal{tr("The logbook is read-only: %1. Nothing was written.", shown_path(url))};
    } catch (...) {
        if (!was_open)
            need<css::util::XCloseable>(document_)->close(true);
        throw;
    }
    if (use == Use::show)
        need<css::awt::XTopWindow>(
            need<css::frame::XModel>(document_)->getCurrentController()->getFrame()->getContainerWindow())
            ->toFront();
}

Logbook::~Logbook() {
    try {
        if (close_)
            need<css::util::XCloseable>(document_)->close(true);
    } catch (const css::uno::Exception&) { // it will go when the office lets it
    }
}

std::string Logbook::word(std::string_view list, std::size_t place) const {
    const auto words = values_of(named_range(document_, list));
    return static_cast<sal_Int32>(place) < words.getLength() ? text_of(words[static_cast<sal_Int32>(place)][0]) : "";
}

std::string Logbook::gym() const {
    const auto cell = find_name(document_, "logbook_gym");
    return cell.is() ? text_of(values_of(cell)[0][0]) : "";
}

void Logbook::keep_copy() const { keep_logbook_copy(context_, url_); }

void Logbook::store() const {
    try {
        need<css::frame::XStorable>(document_)->store();
    } catch (const css::uno::Exception&) {
        throw Refusal{
            tr("%1 could not be saved. Check that the folder exists, has space and is writable.", shown_path(url_))};
    }
}

std::optional<std::string> ask_for_logbook(Context& context) {
    if (const auto place = logbook_place(context))
        return place;
    if (!context.interactive())
        throw Refusal{tr("There is no logbook yet. Make one with New logbook.")};
    auto url = open_file(context, tr("The gym's logbook"), {{tr("Logbook"), "*.ods"}});
    if (url) {
        const Logbook chosen(context, *url, Logbook::Use::read); // refused where it is none
        remember_logbook(context, *url);
    }
    return url;
}

} // namespace pacecells
