#include "printed.h"

#include "form.h"

#include "pacecells/text.h"
#include "pacecells/words.h"

#include <com/sun/star/beans/PropertyAttribute.hpp>
#include <com/sun/star/beans/XPropertyContainer.hpp>
#include <com/sun/star/document/XDocumentPropertiesSupplier.hpp>

#include <cmath>
#include <sstream>

namespace pacecells {

namespace {

using css::uno::Any;
using css::uno::Reference;

constexpr const char* property_name = "Pacecells printed";
constexpr int layout = 1; // of the text in it

// FNV-1a, 64 bits: http://www.isthe.com/chongo/tech/comp/fnv/
constexpr Digest fnv_offset = 14695981039346656037U;
constexpr Digest fnv_prime = 1099511628211U;

Digest add(Digest digest, std::string_view text) {
    for (const char c : text) {
        digest ^= static_cast<unsigned char>(c);
        digest *= fnv_prime;
    }
    digest ^= 0xFF; // no byte of UTF-8: where one text ends
    return digest * fnv_prime;
}

Digest not_zero(Digest digest) { return digest == 0 ? 1 : digest; }

Reference<css::beans::XPropertyContainer> container(const Document& document) {
    return need<css::document::XDocumentPropertiesSupplier>(document)
        ->getDocumentProperties()
        ->getUserDefinedProperties();
}

Digest digest_of_workout(const EventCells& event) {
    Digest digest = fnv_offset;
    for (const auto* spelling :
         {"workout.format", "workout.cap", "workout.rounds", "workout.work_s", "workout.rest_s", "workout.every_s",
          "workout.windows", "workout.scoring", "workout.team", "workout.at_once", "workout.split",
          "workout.divisions.amount.1", "workout.stations.movement"})
        if (const auto range = event.find(spelling); range.is())
            digest = add(digest, std::to_string(digest_of(values_of(range))));
    return not_zero(digest);
}

} // namespace

Digest digest_of(const Rows& rows) {
    Digest digest = fnv_offset;
    for (const auto& row : rows)
        for (const auto& value : row) {
            if (double number = 0; value >>= number)
                digest = add(digest, number_text(number));
            else if (rtl::OUString text; value >>= text)
                digest = add(digest, utf8(text));
        }
    return not_zero(digest);
}

Digest digest_of_name(const std::string& name) { return not_zero(add(fnv_offset, fold_name(name))); }

Printed printed_before(const Document& document) {
    Printed printed;
    const auto properties = need<css::beans::XPropertySet>(container(document));
    const auto name = rtl::OUString::createFromAscii(property_name);
    if (!properties->getPropertySetInfo()->hasPropertyByName(name))
        return printed;
    rtl::OUString text;
    properties->getPropertyValue(name) >>= text;
    std::istringstream words(utf8(text));
    int version = 0;
    Printed read;
    if (!(words >> version) || version != layout ||
        !(words >> read.announcement >> read.workout >> read.wall >> read.heats))
        return printed; // nobody knows: everything counts as new
    for (Digest person = 0; words >> person;)
        words >> read.people[person].card >> read.people[person].judge;
    return read;
}

void remember(const Document& document, const Printed& printed) {
    std::ostringstream text;
    text << layout << ' ' << printed.announcement << ' ' << printed.workout << ' ' << printed.wall << ' '
         << printed.heats;
    for (const auto& [person, digests] : printed.people)
        text << ' ' << person << ' ' << digests.card << ' ' << digests.judge;
    forget_printed(document);
    container(document)->addProperty(rtl::OUString::createFromAscii(property_name),
                                     css::beans::PropertyAttribute::REMOVABLE, Any(utf16(text.str())));
}

void forget_printed(const Document& document) {
    const auto properties = container(document);
    const auto name = rtl::OUString::createFromAscii(property_name);
    if (need<css::beans::XPropertySet>(properties)->getPropertySetInfo()->hasPropertyByName(name))
        properties->removeProperty(name);
}

bool version_settled(Context& context, const EventCells& event, Printed& printed, bool by_hand) {
    const auto workout = digest_of_workout(event);
    auto number = event.number("workout.announcement").value_or(0);
    if (!printed.nothing() && printed.workout != workout && number <= printed.announcement) {
        const auto old = shown_number(printed.announcement, 0);
        auto question = tr("Cap, stations, amounts or loads have changed since version %1 was printed. The next "
                           "version gets its own number.",
                           old);
        if (!context.interactive() && !context.argument("Announcement"))
            throw Refusal{question};
        if (by_hand)
            question += " " + tr("What was printed just now still says version %1: print it again.", old);
        Form form(context, tr("New version"), 260, 80, 40);
        form.dialog().paragraph(question, by_hand ? 4 : 3);
        form.entry("Announcement", tr("~Version"), shown_number(printed.announcement + 1, 0));
        const bool accepted = form.fill(by_hand ? tr("~Change the number") : tr("~Print"), [&](const Form& typed) {
            number = typed.number("Announcement", 1, 99);
            if (number != std::floor(number) || number <= printed.announcement)
                throw FieldRefusal{"Announcement", tr("Needs a whole number above %1.", old)};
        });
        if (!accepted)
            return false;
        Undo undo(event.document(), tr("New version"));
        put_number(event.at("workout.announcement"), 0, 0, number);
        undo.done();
    }
    printed.workout = workout;
    printed.announcement = number;
    return true;
}

} // namespace pacecells
