#include "people.h"

#include "pacecells/names.h"
#include "pacecells/words.h"

#include <algorithm>

namespace pacecells {

std::vector<LogbookPerson> people_on(const Logbook& logbook, double day) {
    std::vector<LogbookPerson> people;
    const auto table = logbook.table("people");
    for (const auto row : table.rows()) {
        LogbookPerson person;
        person.name = table.text(row, "name");
        if (person.name.empty())
            continue;
        person.division = table.text(row, "division");
        person.plan = plan_on(day, table.text(row, "plan"), table.number(row, "until"));
        person.minor = find_word(WordList::yes, table.text(row, "minor")).has_value();
        people.push_back(std::move(person));
    }
    return people;
}

std::vector<std::string> names_of(const std::vector<LogbookPerson>& people) {
    std::vector<std::string> names;
    std::ranges::transform(people, std::back_inserter(names), &LogbookPerson::name);
    return names;
}

std::size_t find_person(const std::vector<std::string>& names, const std::string& typed) {
    const auto found = NameList{names}.find(typed);
    if (found.sure())
        return found.same.front();
    if (found.same.size() > 1)
        throw Refusal{tr("%1 is in the logbook twice. Add a letter to one of the names first.", typed)};
    if (!found.nearly.empty())
        throw Refusal{tr("%1 is not in the logbook. Is it %2?", typed, names[found.nearly.front()])};
    throw Refusal{tr("%1 is not in the logbook.", typed)};
}

void ask_for_person(const Context& context, Form& form, const std::vector<std::string>& names) {
    std::vector<Form::Option> options;
    for (const auto& name : names)
        options.push_back({name, name});
    if (context.interactive())
        form.choice("Name", tr("~Name"), options);
    else
        form.entry("Name", tr("~Name"), "");
}

std::size_t person_in(const Form& form, const std::vector<std::string>& names) {
    try {
        return find_person(names, form.text("Name"));
    } catch (const Refusal& refusal) {
        throw FieldRefusal{"Name", refusal.sentence};
    }
}

std::string what_of(const TestEntry& test, const std::vector<MachineName>& machines) {
    if (!test.machine)
        return test.movement;
    const auto found = std::ranges::find(machines, *test.machine, &MachineName::machine);
    return found != machines.end() ? found->name
                                   : std::string(word(WordList::machine, static_cast<std::size_t>(*test.machine),
                                                      *parse_language(interface_language())));
}

} // namespace pacecells
