// Short ways to what commands need of the office. What is not there is refused with a sentence.
#pragma once

#include "command.h"
#include "unicode.h"

#include <com/sun/star/beans/PropertyValue.hpp>
#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/document/XUndoManager.hpp>
#include <com/sun/star/lang/XComponent.hpp>
#include <com/sun/star/sheet/XSpreadsheet.hpp>
#include <com/sun/star/sheet/XSpreadsheetView.hpp>
#include <com/sun/star/table/CellAddress.hpp>
#include <com/sun/star/table/CellRangeAddress.hpp>
#include <com/sun/star/table/XCell.hpp>
#include <com/sun/star/table/XCellRange.hpp>
#include <cppuhelper/weak.hxx>

#include <initializer_list>
#include <utility>
#include <vector>

namespace pacecells {

// Queries an interface; a null reference where there is none.
template <class Interface, class Object>
[[nodiscard]] css::uno::Reference<Interface> as(const css::uno::Reference<Object>& object) {
    return css::uno::Reference<Interface>(object, css::uno::UNO_QUERY);
}

// As above, and an exception where there is none.
template <class Interface, class Object>
[[nodiscard]] css::uno::Reference<Interface> need(const css::uno::Reference<Object>& object) {
    return css::uno::Reference<Interface>(object, css::uno::UNO_QUERY_THROW);
}

// --- services and properties -------------------------------------------------------------------------------------

[[nodiscard]] css::uno::Reference<css::uno::XInterface>
create(const css::uno::Reference<css::uno::XComponentContext>& component, const char* service);

// What a constructor of pacecells.components gives the office: an object of ours, held once for the office.
template <class Object>
[[nodiscard]] css::uno::XInterface* constructed(css::uno::XComponentContext* component) {
    auto* object = new Object(component);
    object->acquire();
    return static_cast<cppu::OWeakObject*>(object);
}

// A text of the office's own configuration.
[[nodiscard]] rtl::OUString setting(const css::uno::Reference<css::uno::XComponentContext>& component, const char* path,
                                    const char* name);

using Properties = std::initializer_list<std::pair<const char*, css::uno::Any>>;
[[nodiscard]] css::uno::Sequence<css::beans::PropertyValue> properties(Properties values);

template <class Object>
void set_property(const css::uno::Reference<Object>& object, const char* name, const css::uno::Any& value) {
    need<css::beans::XPropertySet>(object)->setPropertyValue(rtl::OUString::createFromAscii(name), value);
}
template <class Object>
[[nodiscard]] css::uno::Any get_property(const css::uno::Reference<Object>& object, const char* name) {
    return need<css::beans::XPropertySet>(object)->getPropertyValue(rtl::OUString::createFromAscii(name));
}

// --- document, sheet, selection ----------------------------------------------------------------------------------

// The sheet in front; refused where the view shows none (print preview).
[[nodiscard]] css::uno::Reference<css::sheet::XSpreadsheetView> view(const Context& context);
[[nodiscard]] css::uno::Reference<css::sheet::XSpreadsheet> active_sheet(const Context& context);

// The selected ranges; refused where something else is selected (a chart).
[[nodiscard]] std::vector<css::uno::Reference<css::table::XCellRange>> selected_ranges(const Context& context);

// The cell under the cursor: the top left one of the selection.
[[nodiscard]] css::table::CellAddress cursor(const Context& context);

// The cells of a name such as "roster_name" (the list is templates/NAMES.md). find_name gives a null reference where
// the document has no such name or it is not a range; named_range refuses.
[[nodiscard]] css::uno::Reference<css::table::XCellRange>
find_name(const css::uno::Reference<css::sheet::XSpreadsheetDocument>& document, std::string_view name);
[[nodiscard]] css::uno::Reference<css::table::XCellRange>
named_range(const css::uno::Reference<css::sheet::XSpreadsheetDocument>& document, std::string_view name);

[[nodiscard]] css::table::CellRangeAddress address(const css::uno::Reference<css::table::XCellRange>& range);

// "C7", and "$C$7" where absolute.
[[nodiscard]] std::string cell_name(sal_Int32 column, sal_Int32 row, bool absolute = false);

// What stands in the cells: numbers and texts; an empty text for a blank or an error.
using Rows = css::uno::Sequence<css::uno::Sequence<css::uno::Any>>;
[[nodiscard]] Rows values_of(const css::uno::Reference<css::table::XCellRange>& range);
// Writes them. (Never hand a void Any to setDataArray: LibreOffice 7.4 crashes. An error cell reads as one.)
void set_values(const css::uno::Reference<css::table::XCellRange>& range, const Rows& rows);

// Whether anything stands in the cells.
[[nodiscard]] bool filled(const css::uno::Reference<css::table::XCellRange>& range);

// A place for a block at the cursor: refused where it would pass the edge of the sheet or the cells are protected;
// asked for where something stands there (argument Overwrite). A null reference where the person says no.
[[nodiscard]] css::uno::Reference<css::table::XCellRange> place_at_cursor(Context& context, sal_Int32 columns,
                                                                          sal_Int32 rows);

// The key of a number format, made where the document lacks it: "[M]:SS", in English.
[[nodiscard]] sal_Int32 number_format(const css::uno::Reference<css::sheet::XSpreadsheetDocument>& document,
                                      std::string_view code);

// One step of undo with a title. Without done() everything since the construction is taken back: a command that throws
// half way leaves the document as it was.
class Undo {
  public:
    Undo(const css::uno::Reference<css::sheet::XSpreadsheetDocument>& document, const std::string& title);
    ~Undo();
    Undo(const Undo&) = delete;
    Undo& operator=(const Undo&) = delete;

    void done() { done_ = true; }

  private:
    css::uno::Reference<css::document::XUndoManager> manager_;
    sal_Int32 steps_before_ = 0;
    bool done_ = false;
};

// --- files -------------------------------------------------------------------------------------------------------

// A URL for people: with spaces instead of %20.
[[nodiscard]] std::string decoded(std::string_view text);

// Whether there is a file or folder.
[[nodiscard]] bool exists(const std::string& url);

// file:///…, no slash at the end; nothing, or refused, where the office does not know the package.
[[nodiscard]] std::optional<std::string>
find_package(const css::uno::Reference<css::uno::XComponentContext>& component);
[[nodiscard]] std::string package_url(const Context& context);
// A workbook of the package in the interface's language: template_url(context, "event.ots"); refused where it is gone.
[[nodiscard]] std::string template_url(const Context& context, std::string_view file);

css::uno::Reference<css::lang::XComponent> load(const Context& context, const std::string& url, Properties values);

struct FileKind {
    std::string name;    // "Spreadsheet"
    std::string pattern; // "*.ods", or several with ; between them
};

// file:///… or nothing where the person cancels. The argument File, a URL or a path, answers for the person.
[[nodiscard]] std::optional<std::string> open_file(Context& context, const std::string& title,
                                                   const std::vector<FileKind>& kinds);
[[nodiscard]] std::optional<std::string> save_file(Context& context, const std::string& title,
                                                   const std::string& proposed_name,
                                                   const std::vector<FileKind>& kinds);

} // namespace pacecells
