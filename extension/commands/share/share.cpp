// A copy to pass on: formulas replaced by what they show, so that it reads the same where Pacecells is missing. The
// workbook itself is not touched, and the copy gets its name only when it is complete.
#include "office.h"
#include "store.h"

#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/container/XNamed.hpp>
#include <com/sun/star/frame/XModel.hpp>
#include <com/sun/star/sheet/CellFlags.hpp>
#include <com/sun/star/sheet/FormulaResult.hpp>
#include <com/sun/star/sheet/XCalculatable.hpp>
#include <com/sun/star/sheet/XCellRangesQuery.hpp>
#include <com/sun/star/sheet/XSheetOperation.hpp>
#include <com/sun/star/text/XTextRange.hpp>
#include <com/sun/star/util/XCloseable.hpp>
#include <com/sun/star/util/XProtectable.hpp>
#include <osl/file.hxx>

#include <algorithm>
#include <cctype>

namespace pacecells {

namespace {

using css::table::CellRangeAddress;
using css::uno::Any;
using css::uno::Reference;

using Document = Reference<css::sheet::XSpreadsheetDocument>;

struct Kind {
    std::string ending;
    const char* filter;
};

const Kind& kind_of_file(const std::string& url) {
    static const Kind kinds[] = {{".ods", "calc8"}, {".xlsx", "Calc MS Excel 2007 XML"}, {".pdf", "calc_pdf_Export"}};
    std::string lower = url;
    std::transform(lower.begin(), lower.end(), lower.begin(),
                   [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    for (const auto& kind : kinds)
        if (lower.ends_with(kind.ending))
            return kind;
    throw Refusal{tr("A file name ends in .ods, .xlsx or .pdf.")};
}

// --- formulas to values ------------------------------------------------------------------------------------------

struct Values {
    CellRangeAddress where;
    Rows rows;
};

class Flattener {
  public:
    explicit Flattener(const Document& document) : document_(document) {
        set_property(document_, "IsUndoEnabled", Any(false)); // a copy of every formula, for nobody
        const auto calculation = need<css::sheet::XCalculatable>(document_);
        calculation->enableAutomaticCalculation(false); // values stand still while formulas go
        const Reference<css::container::XIndexAccess> sheets(document_->getSheets(), css::uno::UNO_QUERY_THROW);
        std::vector<Reference<css::table::XCellRange>> open;
        for (sal_Int32 i = 0; i < sheets->getCount(); ++i) {
            const Reference<css::table::XCellRange> sheet(sheets->getByIndex(i), css::uno::UNO_QUERY_THROW);
            if (unprotect(sheet))
                open.push_back(sheet);
            read(sheet);
        }
        for (sal_Int32 i = 0; i < sheets->getCount(); ++i) // whole sheets, so that no array is cut
            Reference<css::sheet::XSheetOperation>(sheets->getByIndex(i), css::uno::UNO_QUERY_THROW)
                ->clearContents(css::sheet::CellFlags::FORMULA);
        for (const auto& values : values_) {
            const Reference<css::table::XCellRange> sheet(sheets->getByIndex(values.where.Sheet),
                                                          css::uno::UNO_QUERY_THROW);
            set_values(part(sheet, values.where), values.rows);
        }
        for (const auto& sheet : open)
            need<css::util::XProtectable>(sheet)->protect(rtl::OUString());
        calculation->enableAutomaticCalculation(true);
    }

  private:
    // Whether the sheet was protected; a password ends the matter.
    static bool unprotect(const Reference<css::table::XCellRange>& sheet) {
        const auto protection = need<css::util::XProtectable>(sheet);
        if (!protection->isProtected())
            return false;
        const auto name = utf8(need<css::container::XNamed>(sheet)->getName());
        try {
            protection->unprotect(rtl::OUString());
        } catch (const css::uno::Exception&) { // a wrong password: answered below
        }
        if (protection->isProtected())
            throw Refusal{tr("The sheet %1 has a password. Take it off first, or share a PDF.", name)};
        return true;
    }

    void read(const Reference<css::table::XCellRange>& sheet) {
        const auto query = need<css::sheet::XCellRangesQuery>(sheet);
        const auto formulas = query->queryContentCells(css::sheet::CellFlags::FORMULA)->getRangeAddresses();
        for (const auto& where : formulas) {
            const auto range = part(sheet, where);
            values_.push_back({where, shown_empty_is_empty(range, values_of(range))});
        }
        const auto errors = query->queryFormulaCells(css::sheet::FormulaResult::ERROR)->getRangeAddresses();
        for (const auto& where : errors)
            for (sal_Int32 y = where.StartRow; y <= where.EndRow; ++y)
                for (sal_Int32 x = where.StartColumn; x <= where.EndColumn; ++x) // as people see it
                    values_.push_back({{where.Sheet, x, y, x, y}, one(sheet->getCellByPosition(x, y))});
    }

    static Reference<css::table::XCellRange> part(const Reference<css::table::XCellRange>& sheet,
                                                  const CellRangeAddress& where) {
        return sheet->getCellRangeByPosition(where.StartColumn, where.StartRow, where.EndColumn, where.EndRow);
    }

    // A formula that hands on an empty cell has the value 0 and shows nothing.
    static Rows shown_empty_is_empty(const Reference<css::table::XCellRange>& range, Rows rows) {
        auto* row = rows.getArray();
        for (sal_Int32 y = 0; y < rows.getLength(); ++y) {
            auto* cells = row[y].getArray();
            for (sal_Int32 x = 0; x < row[y].getLength(); ++x)
                if (double number = 1;
                    (cells[x] >>= number) && number == 0 &&
                    need<css::text::XTextRange>(range->getCellByPosition(x, y))->getString().isEmpty())
                    cells[x] <<= rtl::OUString();
        }
        return rows;
    }

    static Rows one(const Reference<css::table::XCell>& cell) {
        const Any text(need<css::text::XTextRange>(cell)->getString());
        const css::uno::Sequence<Any> row(&text, 1);
        return {&row, 1};
    }

    Document document_;
    std::vector<Values> values_;
};

void store(const Context& context, const Document& document, const std::string& url, const char* filter) {
    store_whole(context, need<css::frame::XStorable>(document), url,
                {{"FilterName", Any(rtl::OUString::createFromAscii(filter))}});
}

// A document of its own with the same contents, closed at the end.
class Copy {
    struct Removed {
        std::string url;
        ~Removed() { osl::File::remove(utf16(url)); }
    };

  public:
    Copy(const Context& context, const Document& original, const std::string& near) {
        const Removed file{near + ".copy"};
        store(context, original, file.url, "calc8");
        document_.set(
            load(context, file.url,
                 {{"Hidden", Any(true)}, {"FilterName", Any(rtl::OUString("calc8"))}, {"AsTemplate", Any(true)}}),
            css::uno::UNO_QUERY_THROW);
    }
    ~Copy() {
        try {
            need<css::util::XCloseable>(document_)->close(true);
        } catch (const css::uno::Exception&) { // the office is ending
        }
    }
    Copy(const Copy&) = delete;
    Copy& operator=(const Copy&) = delete;

    [[nodiscard]] const Document& document() const { return document_; }

  private:
    Document document_;
};

// The workbook's name without its ending, for the window that asks for the copy's.
std::string proposed_name(const Document& document) {
    auto name = utf8(need<css::frame::XModel>(document)->getURL());
    name = name.substr(name.find_last_of('/') + 1);
    name = name.substr(0, name.find_last_of('.'));
    return (name.empty() ? tr("Workbook") : decoded(name)) + " " + tr("values");
}

bool exists(const std::string& url) {
    osl::DirectoryItem item;
    return osl::DirectoryItem::get(utf16(url), item) == osl::FileBase::E_None;
}

void share(Context& context) {
    const auto document = context.document();
    const auto url =
        save_file(context, tr("Share as values"), proposed_name(document),
                  {{tr("Spreadsheet (.ods)"), "*.ods"}, {tr("Workbook (.xlsx)"), "*.xlsx"}, {"PDF", "*.pdf"}});
    if (!url)
        return;
    const auto& kind = kind_of_file(*url);
    if (utf8(need<css::frame::XModel>(document)->getURL()) == *url)
        throw Refusal{tr("That is the workbook itself. Choose another name.")};
    if (!context.interactive() && exists(*url) &&
        !context.ask(tr("%1 is there already. Overwrite it?", *url), "Overwrite"))
        return;
    if (kind.ending == ".pdf") {
        store(context, document, *url, kind.filter);
    } else {
        const Copy copy(context, document, *url);
        Flattener{copy.document()};
        store(context, copy.document(), *url, kind.filter);
    }
    context.say(tr("Written: %1", decoded(*url)));
}

const Command command{"share", share};

} // namespace

} // namespace pacecells
