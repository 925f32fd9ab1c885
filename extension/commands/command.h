// The menu commands. To add one:
//
//  1. Write commands/<name>.cpp: a function `void run(Context& context)`, and below it
//         const Command command{"the-name", run};
//     which is all the registration there is.
//  2. Add a row to menu.h, and the icons package/office/icons/the-name_16.png and _26.png (package/icons/draw makes
//     them from a drawing of 26 by 26).
//  3. Put every text into texts/<language>/commands/<name>.json; tr("…") does not compile otherwise.
//  4. Test it in tests/office/commands_test.py through its dispatch, vnd.org.pacecells:the-name.
//
// A command asks for what it needs from the Context: the document, the selection, arguments. What it cannot do, it says
// with `throw Refusal{tr("…")}`; exceptions of the office may pass too. Both end at the one boundary in dispatch.cpp as
// a sentence. Changes to the document go into an Undo (office.h), so that they are one step, and are taken back when
// anything is thrown.
//
// Every command runs without a dialog too: dispatched with the argument Silent it reads its fields from the arguments
// (vnd.org.pacecells:pace-table?Cap=20:00 or property values; Silent, Overwrite and File as property values only) and what it would show is the result of the dispatch:
// state SUCCESS with what was said, or FAILURE with the sentence of the refusal.
#pragma once

#include "texts.h"

#include <com/sun/star/frame/XFrame.hpp>
#include <com/sun/star/sheet/XSpreadsheetDocument.hpp>
#include <com/sun/star/uno/XComponentContext.hpp>

#include <map>
#include <optional>
#include <string>
#include <string_view>

namespace pacecells {

namespace css = com::sun::star;

// Why a command cannot do what was asked: a sentence for the person.
struct Refusal {
    std::string sentence;
};

using Arguments = std::map<std::string, std::string, std::less<>>;

class Context {
  public:
    Context(css::uno::Reference<css::uno::XComponentContext> component, css::uno::Reference<css::frame::XFrame> frame,
            Arguments arguments);

    [[nodiscard]] const css::uno::Reference<css::uno::XComponentContext>& component() const { return component_; }
    [[nodiscard]] const css::uno::Reference<css::frame::XFrame>& frame() const { return frame_; }
    [[nodiscard]] css::uno::Reference<css::sheet::XSpreadsheetDocument> document() const;

    // With windows: a person is there to answer. Otherwise the arguments hold all answers.
    [[nodiscard]] bool interactive() const { return interactive_; }
    [[nodiscard]] std::optional<std::string> argument(std::string_view name) const;
    [[nodiscard]] std::string argument(std::string_view name, std::string_view otherwise) const;

    // A sentence to the person, or part of the result.
    void say(const std::string& text);
    // Yes or no; without windows the argument of that name answers ("true"), and a missing one refuses.
    [[nodiscard]] bool ask(const std::string& question, std::string_view argument_name);

    [[nodiscard]] const std::string& said() const { return said_; }

  private:
    css::uno::Reference<css::uno::XComponentContext> component_;
    css::uno::Reference<css::frame::XFrame> frame_;
    Arguments arguments_;
    bool interactive_;
    std::string said_;
};

class Command {
  public:
    using Run = void (*)(Context&);
    using Here = bool (*)(const Context&);

    // Without `here` the command is there in every spreadsheet; with it, only while that is true. A key of a command
    // that is not there does what it does without us.
    Command(const char* name, Run run, Here here = nullptr);
    Command(const Command&) = delete;
    Command& operator=(const Command&) = delete;

    [[nodiscard]] static const Command* find(std::string_view name);
    [[nodiscard]] bool here(const Context& context) const { return !here_ || here_(context); }
    void operator()(Context& context) const { run_(context); }

  private:
    std::string_view name_;
    Run run_;
    Here here_;
    const Command* next_;
    static const Command* first_;
};

} // namespace pacecells
