#include "office.h"

#include <com/sun/star/awt/MessageBoxButtons.hpp>
#include <com/sun/star/awt/MessageBoxResults.hpp>
#include <com/sun/star/awt/MessageBoxType.hpp>
#include <com/sun/star/awt/Toolkit.hpp>
#include <com/sun/star/awt/XMessageBoxFactory.hpp>
#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/container/XNameAccess.hpp>
#include <com/sun/star/deployment/PackageInformationProvider.hpp>
#include <com/sun/star/document/XUndoManagerSupplier.hpp>
#include <com/sun/star/frame/Desktop.hpp>
#include <com/sun/star/lang/IllegalArgumentException.hpp>
#include <com/sun/star/lang/XInitialization.hpp>
#include <com/sun/star/lang/XMultiServiceFactory.hpp>
#include <com/sun/star/sheet/CellFlags.hpp>
#include <com/sun/star/sheet/XCellRangeAddressable.hpp>
#include <com/sun/star/sheet/XCellRangeData.hpp>
#include <com/sun/star/sheet/XCellRangeReferrer.hpp>
#include <com/sun/star/sheet/XCellRangesQuery.hpp>
#include <com/sun/star/sheet/XSheetCellRanges.hpp>
#include <com/sun/star/ui/dialogs/ExecutableDialogResults.hpp>
#include <com/sun/star/ui/dialogs/FilePicker.hpp>
#include <com/sun/star/ui/dialogs/TemplateDescription.hpp>
#include <com/sun/star/ui/dialogs/XFilePicker3.hpp>
#include <com/sun/star/util/CellProtection.hpp>
#include <com/sun/star/util/XNumberFormatsSupplier.hpp>
#include <com/sun/star/util/XProtectable.hpp>
#include <com/sun/star/view/XSelectionSupplier.hpp>
#include <osl/file.hxx>
#include <rtl/uri.hxx>

namespace pacecells {

using css::uno::Any;
using css::uno::Reference;
using css::uno::Sequence;
using rtl::OUString;

// --- Context -----------------------------------------------------------------------------------------------------

Context::Context(Reference<css::uno::XComponentContext> component, Reference<css::frame::XFrame> frame,
                 Arguments arguments)
    : component_(std::move(component)), frame_(std::move(frame)), arguments_(std::move(arguments)),
      interactive_(!arguments_.contains("Silent")) {}

Reference<css::sheet::XSpreadsheetDocument> Context::document() const {
    const auto controller = frame_->getController();
    auto document = controller.is() ? as<css::sheet::XSpreadsheetDocument>(controller->getModel())
                                    : Reference<css::sheet::XSpreadsheetDocument>();
    if (!document.is())
        throw Refusal{tr("This needs a spreadsheet.")};
    return document;
}

std::optional<std::string> Context::argument(std::string_view name) const {
    const auto found = arguments_.find(name);
    return found == arguments_.end() ? std::nullopt : std::optional(found->second);
}

std::string Context::argument(std::string_view name, std::string_view otherwise) const {
    return argument(name).value_or(std::string(otherwise));
}

namespace {

sal_Int16 message_box(const Context& context, css::awt::MessageBoxType type, sal_Int32 buttons,
                      const std::string& text) {
    const auto toolkit = css::awt::Toolkit::create(context.component());
    const auto parent = as<css::awt::XWindowPeer>(context.frame()->getContainerWindow());
    const auto box =
        need<css::awt::XMessageBoxFactory>(toolkit)->createMessageBox(parent, type, buttons, "Pacecells", utf16(text));
    const auto answer = box->execute();
    need<css::lang::XComponent>(box)->dispose();
    return answer;
}

} // namespace

void Context::say(const std::string& text) {
    said_ += (said_.empty() ? "" : "\n") + text;
    if (interactive_)
        message_box(*this, css::awt::MessageBoxType_INFOBOX, css::awt::MessageBoxButtons::BUTTONS_OK, text);
}

bool Context::ask(const std::string& question, std::string_view argument_name) {
    if (interactive_)
        return message_box(*this, css::awt::MessageBoxType_QUERYBOX,
                           css::awt::MessageBoxButtons::BUTTONS_YES_NO | css::awt::MessageBoxButtons::DEFAULT_BUTTON_NO,
                           question) == css::awt::MessageBoxResults::YES;
    const auto answer = argument(argument_name);
    if (!answer)
        throw Refusal{question};
    return *answer == "true" || *answer == "1";
}

// --- services and properties -------------------------------------------------------------------------------------

Reference<css::uno::XInterface> create(const Reference<css::uno::XComponentContext>& component, const char* service) {
    return Reference<css::uno::XInterface>(
        component->getServiceManager()->createInstanceWithContext(OUString::createFromAscii(service), component),
        css::uno::UNO_SET_THROW);
}

OUString setting(const Reference<css::uno::XComponentContext>& component, const char* path, const char* name) {
    const auto provider =
        need<css::lang::XMultiServiceFactory>(create(component, "com.sun.star.configuration.ConfigurationProvider"));
    const Any where(css::beans::PropertyValue("nodepath", 0, Any(OUString::createFromAscii(path)),
                                              css::beans::PropertyState_DIRECT_VALUE));
    const auto settings = need<css::container::XNameAccess>(provider->createInstanceWithArguments(
        "com.sun.star.configuration.ConfigurationAccess", Sequence<Any>(&where, 1)));
    OUString text;
    settings->getByName(OUString::createFromAscii(name)) >>= text;
    return text;
}

Sequence<css::beans::PropertyValue> properties(Properties values) {
    Sequence<css::beans::PropertyValue> result(static_cast<sal_Int32>(values.size()));
    auto* next = result.getArray();
    for (const auto& [name, value] : values) {
        next->Name = OUString::createFromAscii(name);
        next->Value = value;
        ++next;
    }
    return result;
}

// --- document, sheet, selection ----------------------------------------------------------------------------------

Reference<css::sheet::XSpreadsheetView> view(const Context& context) {
    auto view = as<css::sheet::XSpreadsheetView>(context.frame()->getController());
    if (!view.is())
        throw Refusal{tr("This needs the sheet in its normal view.")};
    return view;
}

Reference<css::sheet::XSpreadsheet> active_sheet(const Context& context) { return view(context)->getActiveSheet(); }

std::vector<Reference<css::table::XCellRange>> selected_ranges(const Context& context) {
    std::vector<Reference<css::table::XCellRange>> ranges;
    const auto supplier = need<css::view::XSelectionSupplier>(view(context));
    Reference<css::uno::XInterface> selection;
    supplier->getSelection() >>= selection;
    if (const auto several = as<css::sheet::XSheetCellRanges>(selection); several.is()) {
        const auto list = need<css::container::XIndexAccess>(several);
        for (sal_Int32 i = 0; i < list->getCount(); ++i)
            ranges.emplace_back(list->getByIndex(i), css::uno::UNO_QUERY_THROW);
    } else if (const auto one = as<css::table::XCellRange>(selection); one.is()) {
        ranges.push_back(one);
    }
    if (ranges.empty())
        throw Refusal{tr("Select cells first.")};
    return ranges;
}

css::table::CellAddress cursor(const Context& context) {
    const auto where = address(selected_ranges(context).front());
    return {where.Sheet, where.StartColumn, where.StartRow};
}

Reference<css::table::XCellRange> find_name(const Reference<css::sheet::XSpreadsheetDocument>& document,
                                            std::string_view name) {
    Reference<css::container::XNameAccess> names;
    get_property(document, "NamedRanges") >>= names;
    const auto wanted = utf16(name);
    if (!names.is() || !names->hasByName(wanted))
        return {};
    const Reference<css::sheet::XCellRangeReferrer> range(names->getByName(wanted), css::uno::UNO_QUERY);
    return range.is() ? range->getReferredCells() : Reference<css::table::XCellRange>();
}

Reference<css::table::XCellRange> named_range(const Reference<css::sheet::XSpreadsheetDocument>& document,
                                              std::string_view name) {
    auto range = find_name(document, name);
    if (!range.is())
        throw Refusal{tr("This workbook has no cells named %1. Is it a Pacecells workbook?", name)};
    return range;
}

css::table::CellRangeAddress address(const Reference<css::table::XCellRange>& range) {
    return need<css::sheet::XCellRangeAddressable>(range)->getRangeAddress();
}

std::string cell_name(sal_Int32 column, sal_Int32 row, bool absolute) {
    std::string letters;
    for (++column; column > 0; column = (column - 1) / 26)
        letters.insert(letters.begin(), static_cast<char>('A' + (column - 1) % 26));
    const std::string sign = absolute ? "$" : "";
    return sign + letters + sign + std::to_string(row + 1);
}

Rows values_of(const Reference<css::table::XCellRange>& range) {
    auto rows = need<css::sheet::XCellRangeData>(range)->getDataArray();
    auto* row = rows.getArray();
    for (sal_Int32 i = 0; i < rows.getLength(); ++i) {
        auto* value = row[i].getArray();
        for (sal_Int32 j = 0; j < row[i].getLength(); ++j)
            if (!value[j].hasValue())
                value[j] <<= OUString();
    }
    return rows;
}

void set_values(const Reference<css::table::XCellRange>& range, const Rows& rows) {
    need<css::sheet::XCellRangeData>(range)->setDataArray(rows);
}

bool filled(const Reference<css::table::XCellRange>& range) {
    using namespace css::sheet::CellFlags;
    const auto query = need<css::sheet::XCellRangesQuery>(range);
    return query->queryContentCells(VALUE | DATETIME | STRING | FORMULA)->getRangeAddresses().hasElements();
}

Reference<css::table::XCellRange> place_at_cursor(Context& context, sal_Int32 columns, sal_Int32 rows) {
    const auto at = cursor(context);
    const auto sheet = active_sheet(context);
    const auto edge = address(as<css::table::XCellRange>(sheet));
    if (at.Column + columns - 1 > edge.EndColumn || at.Row + rows - 1 > edge.EndRow)
        throw Refusal{tr("There is not enough room between the cursor and the edge of the sheet.")};
    auto place = sheet->getCellRangeByPosition(at.Column, at.Row, at.Column + columns - 1, at.Row + rows - 1);
    css::util::CellProtection protection;
    const bool open = (get_property(place, "CellProtection") >>= protection) && !protection.IsLocked;
    if (!open && need<css::util::XProtectable>(sheet)->isProtected())
        throw Refusal{tr("The cells here are protected. Choose another place or another sheet.")};
    const auto name = cell_name(at.Column, at.Row) + ":" + cell_name(at.Column + columns - 1, at.Row + rows - 1);
    if (filled(place) && !context.ask(tr("%1 is not empty. Overwrite it?", name), "Overwrite"))
        return {};
    return place;
}

sal_Int32 number_format(const Reference<css::sheet::XSpreadsheetDocument>& document, std::string_view code) {
    const auto formats = need<css::util::XNumberFormatsSupplier>(document)->getNumberFormats();
    const css::lang::Locale english("en", "US", "");
    const auto key = formats->queryKey(utf16(code), english, false);
    return key >= 0 ? key : formats->addNew(utf16(code), english);
}

Undo::Undo(const Reference<css::sheet::XSpreadsheetDocument>& document, const std::string& title)
    : manager_(need<css::document::XUndoManagerSupplier>(document)->getUndoManager()),
      steps_before_(manager_->getAllUndoActionTitles().getLength()) {
    manager_->enterUndoContext(utf16(title));
}

Undo::~Undo() {
    try {
        manager_->leaveUndoContext(); // one that stayed empty vanishes
        if (!done_ && manager_->getAllUndoActionTitles().getLength() > steps_before_) {
            manager_->undo();
            manager_->clearRedo();
        }
    } catch (const css::uno::Exception&) { // a document closed meanwhile has nothing to take back
    }
}

// --- files -------------------------------------------------------------------------------------------------------

std::string decoded(std::string_view text) {
    return utf8(rtl::Uri::decode(utf16(text), rtl_UriDecodeWithCharset, RTL_TEXTENCODING_UTF8));
}

bool exists(const std::string& url) {
    osl::DirectoryItem item;
    return osl::DirectoryItem::get(utf16(url), item) == osl::FileBase::E_None;
}

std::optional<std::string> find_package(const Reference<css::uno::XComponentContext>& component) {
    const auto location =
        css::deployment::PackageInformationProvider::get(component)->getPackageLocation("org.pacecells");
    return location.isEmpty() ? std::nullopt : std::optional(utf8(location));
}

std::string package_url(const Context& context) {
    if (auto url = find_package(context.component()))
        return *url;
    throw Refusal{tr("The extension's files were not found. Please reinstall it.")};
}

std::string template_url(const Context& context, std::string_view file) {
    const std::string language(interface_language());
    auto url = package_url(context) + "/templates/" + language + "/Pacecells" +
               (language == "en" ? "" : "%20(" + language + ")") + "/" + std::string(file);
    if (!exists(url))
        throw Refusal{tr("The extension's files were not found. Please reinstall it.")};
    return url;
}

Reference<css::lang::XComponent> load(const Context& context, const std::string& url, Properties values) {
    auto document = css::frame::Desktop::create(context.component())
                        ->loadComponentFromURL(utf16(url), "_blank", 0, properties(values));
    if (!document.is())
        throw Refusal{tr("%1 cannot be opened.", url)};
    return document;
}

namespace {

std::string as_url(const std::string& given) {
    if (given.find("://") != std::string::npos)
        return given;
    OUString url;
    if (osl::FileBase::getFileURLFromSystemPath(utf16(given), url) != osl::FileBase::E_None)
        throw Refusal{tr("%1 is not a file name.", given)};
    return utf8(url);
}

std::optional<std::string> pick_file(Context& context, const std::string& title, sal_Int16 kind_of_dialog,
                                     const std::string& proposed_name, const std::vector<FileKind>& kinds) {
    if (const auto file = context.argument("File"))
        return as_url(*file);
    if (!context.interactive())
        throw Refusal{tr("No file was chosen.")};
    const auto picker = css::ui::dialogs::FilePicker::createWithMode(context.component(), kind_of_dialog);
    picker->setTitle(utf16(title));
    if (!proposed_name.empty())
        picker->setDefaultName(utf16(proposed_name));
    for (const auto& kind : kinds)
        picker->appendFilter(utf16(kind.name), utf16(kind.pattern));
    if (!kinds.empty())
        picker->setCurrentFilter(utf16(kinds.front().name));
    std::optional<std::string> result;
    if (picker->execute() == css::ui::dialogs::ExecutableDialogResults::OK) {
        const auto files = picker->getSelectedFiles();
        if (files.hasElements())
            result = utf8(files[0]);
    }
    return result;
}

} // namespace

std::optional<std::string> open_file(Context& context, const std::string& title, const std::vector<FileKind>& kinds) {
    return pick_file(context, title, css::ui::dialogs::TemplateDescription::FILEOPEN_SIMPLE, "", kinds);
}

std::optional<std::string> save_file(Context& context, const std::string& title, const std::string& proposed_name,
                                     const std::vector<FileKind>& kinds) {
    return pick_file(context, title, css::ui::dialogs::TemplateDescription::FILESAVE_AUTOEXTENSION, proposed_name,
                     kinds);
}

} // namespace pacecells
