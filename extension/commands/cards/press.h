// Cards and judge's sheets of everyone who starts, in the order of heat and lane. The workbook lays out one page of each,
// live; here a copy of the workbook, out of sight, fills page after page with values and prints them.
#pragma once

#include "copy.h"
#include "printed.h"

namespace pacecells {

struct Starter {
    std::string name;
    std::string division;
    Rows card; // empty where there is none: no plan can be made, or a guardian's consent is missing
    Rows judge;
};

class Press {
  public:
    // Refuses a workbook without cards and a workout that is not complete. Judge's sheets are read only where they are
    // wanted.
    Press(const Context& context, const Document& original, bool with_judges);

    [[nodiscard]] const std::vector<Starter>& starters() const { return starters_; }
    [[nodiscard]] Digest wall() const;
    [[nodiscard]] Digest heats() const;

    struct Order {
        bool wall = false;
        bool heats = false;
        std::vector<const Starter*> cards;
        std::vector<const Starter*> judges;
    };
    // Into one PDF, in the order above.
    void print(const Order& order, const std::string& url);

  private:
    // Cells and their styles with something in them and without.
    struct Mark {
        css::table::CellRangeAddress area;
        bool merged;
        rtl::OUString shown, hidden;
    };
    // A sheet of pages like one of the workbook's.
    struct Pages {
        Range sheet;
        css::table::CellRangeAddress first; // the page that is laid out
        sal_Int32 places;                   // people on a page of the layout
        sal_Int32 per_page;                 // people on a page of paper, at most as many
        sal_Int32 laid = 1;                 // pages that have the layout by now
        std::vector<sal_Int32> heights;     // of its rows; 0: left out
        std::vector<Mark> marks;            // in the place of the first person

        [[nodiscard]] sal_Int32 rows() const { return first.EndRow - first.StartRow + 1; }
        [[nodiscard]] sal_Int32 deep() const { return rows() / places; }
        [[nodiscard]] css::table::CellRangeAddress place(sal_Int32 number) const;
    };
    [[nodiscard]] std::vector<Rows> read(const char* first, const char* page, sal_Int32 places,
                                         std::size_t count) const;
    Pages make(const char* page, const char* title, sal_Int32 places);
    void give_own_style(const Range& sheet, const char* title) const;
    void fill(Pages& pages, const std::vector<const Starter*>& people, Rows Starter::*what);
    static std::vector<Mark> take_marks(const Range& sheet, const css::table::CellRangeAddress& place);
    static void hide_blanks(const Range& sheet, const std::vector<Mark>& marks, sal_Int32 below = 0);
    static void set_heights(const Pages& pages, sal_Int32 page);
    void fit_cards(Pages& pages) const;
    void stretch_judges(Pages& pages) const;
    void split_wall();
    void lay_out_heats(const Range& sheet) const;
    [[nodiscard]] Range sheet_of(const char* name) const;
    [[nodiscard]] Rows public_heats() const;
    [[nodiscard]] css::table::CellRangeAddress heat_area() const;

    const Context& context_;
    Copy copy_;
    EventCells event_;
    std::vector<Starter> starters_;
    Rows heats_;               // as they are printed
    std::vector<Range> walls_; // a sheet for each page
    std::optional<Pages> cards_;
    std::optional<Pages> judges_;
};

} // namespace pacecells
