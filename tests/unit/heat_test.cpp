#include "pacecells/heat.h"

#include "expect.h"
#include "random.h"

#include <algorithm>
#include <chrono>
#include <map>
#include <string>
#include <vector>

namespace pacecells {
namespace {

using Names = std::vector<std::string>;
using Column = std::vector<std::optional<double>>;

// "heat.lane name judge", one text a place.
Names written(const std::vector<HeatPlace>& places, const Names& names) {
    Names rows;
    for (const auto& place : places)
        rows.push_back(std::to_string(place.heat) + "." + std::to_string(place.lane) + " " + names[place.athlete] +
                       " " + (place.judge ? names[*place.judge] : "-"));
    return rows;
}

TEST(Heat, LowestFirstLaterHeatsLargerHighestInLaneOne) {
    const Names names{"Ada", "Ben", "Cleo", "Dan", "Eve", "Finn", "Gil", "Hana"};
    const Column projected{210, 180, std::nullopt, 240, 200, 190, 220, 230};
    const auto places = value_of(heat_list(names, projected, 3));
    // 8 in 3 lanes: heats of 2, 3 and 3.
    EXPECT_EQ(written(places, names), (Names{"1.1 Ben Dan", "1.2 Cleo Hana",                //
                                             "2.1 Ada Ben", "2.2 Eve Cleo", "2.3 Finn Gil", //
                                             "3.1 Dan Ada", "3.2 Hana Eve", "3.3 Gil Finn"}));
    EXPECT_FALSE(places.front().start);
}

TEST(Heat, JudgesComeFromTheHeatAfterTheNext) {
    const Names names{"A", "B", "C", "D", "E", "F", "G", "H"};
    // As given: heats A B, C D E, F G H. Heat 1 is judged by heat 3, heat 2 by heat 1 (lane 3 by heat 3), heat 3 by 2.
    const Names expected{"1.1 A F", "1.2 B G", "2.1 C A", "2.2 D B", "2.3 E H", "3.1 F C", "3.2 G D", "3.3 H E"};
    EXPECT_EQ(written(value_of(heat_list(names, {}, 3)), names), expected);
}

TEST(Heat, TwoHeatsJudgeEachOtherAndOneHeatNobody) {
    const Names five{"A", "B", "C", "D", "E"};
    const Names expected{"1.1 A C", "1.2 B D", "2.1 C A", "2.2 D B", "2.3 E -"};
    EXPECT_EQ(written(value_of(heat_list(five, {}, 3)), five), expected);
    const Names two{"A", "B"};
    EXPECT_EQ(written(value_of(heat_list(two, {}, 10)), two), (Names{"1.1 A -", "1.2 B -"}))
        << "more lanes than athletes";
    EXPECT_EQ(written(value_of(heat_list(two, {}, 1e300)), two), (Names{"1.1 A -", "1.2 B -"}));
}

TEST(Heat, EqualOnesStayInTheOrderGiven) {
    const Names names{"A", "B", "C", "D"};
    const Column projected{100, 100, 100, 100};
    const auto rows = written(value_of(heat_list(names, projected, 2)), names);
    EXPECT_EQ(rows, (Names{"1.1 A C", "1.2 B D", "2.1 C A", "2.2 D B"}));
}

TEST(Heat, GroupsHaveHeatsOfTheirOwn) {
    const Names names{"A", "", "B", "C", "  ", "D", "E"};
    const Names groups{"Open", "Youth", "masters", " open ", "Youth", "MASTERS", "Open"};
    const Column projected{3, 9, 2, 1, 9, 4, 2};
    const auto places = value_of(heat_list(names, projected, 2, Seconds{9 * 3600}, Seconds{600}, groups));
    const auto rows = written(places, names);
    // Open: C | A E. Masters: D B. Nobody of the Youth has a name.
    ASSERT_EQ(rows.size(), 5u);
    EXPECT_EQ(rows, (Names{"1.1 C D", "2.1 A C", "2.2 E B", "3.1 D A", "3.2 B E"}));
    EXPECT_EQ(places[0].start, Seconds{9 * 3600});
    EXPECT_EQ(places[1].start, Seconds{9 * 3600 + 600});
    EXPECT_EQ(places[4].start, Seconds{9 * 3600 + 1200});
}

TEST(Heat, NamesMayRepeatOrBeMissing) {
    const Names names{"A", "A", "A"};
    const auto places = value_of(heat_list(names, {}, 1));
    ASSERT_EQ(places.size(), 3u);
    EXPECT_EQ(places[0].judge, 2u);
    EXPECT_EQ(places[1].judge, 0u);
    EXPECT_EQ(places[2].judge, 1u);
    EXPECT_TRUE(value_of(heat_list(Names{}, {}, 3)).empty());
    EXPECT_TRUE(value_of(heat_list(Names{"", "\t"}, {}, 3)).empty());
}

TEST(Heat, RefusesWhatCannotBeMeant) {
    const Names names{"A", "B"};
    for (const double bad : {0.0, -1.0, 1.5, not_a_number, infinite})
        EXPECT_REFUSED(heat_list(names, {}, bad));
    EXPECT_REFUSED(heat_list(names, Column{1}, 2));
    EXPECT_REFUSED(heat_list(names, Column{1, not_a_number}, 2));
    EXPECT_REFUSED(heat_list(names, Column{1, infinite}, 2));
    EXPECT_REFUSED(heat_list(names, {}, 2, {}, Seconds{900}, Names{"x"}));
    for (const double bad : {-1.0, not_a_number, infinite}) {
        EXPECT_REFUSED(heat_list(names, {}, 2, Seconds{bad}));
        EXPECT_REFUSED(heat_list(names, {}, 2, Seconds{0}, Seconds{bad}));
    }
    EXPECT_REFUSED(heat_list(names, {}, 2, Seconds{0}, Seconds{0}));
}

// The rule of the judges, word by word.
std::optional<std::size_t> judge_of(const std::vector<HeatPlace>& places, const HeatPlace& place) {
    const std::size_t heats = places.back().heat;
    const auto lane_of = [&](std::size_t heat) -> std::optional<std::size_t> {
        for (const auto& other : places)
            if (other.heat == heat && other.lane == place.lane)
                return other.athlete;
        return {};
    };
    if (heats == 1)
        return {};
    std::size_t heat = heats == 2 ? 3 - place.heat : place.heat + 2;
    for (std::size_t i = 0; i < heats; ++i, ++heat) {
        const std::size_t round = (heat - 1) % heats + 1;
        if (round == place.heat)
            continue;
        if (const auto judge = lane_of(round))
            return judge;
    }
    return {};
}

TEST(Heat, KeepsItsPromisesForAnyField) {
    Random random;
    for (int round = 0; round < 400; ++round) {
        Names names;
        Names groups;
        Column projected;
        for (int i = random.whole(0, 40); i > 0; --i) {
            names.push_back(random.whole(0, 7) == 0 ? "" : "n" + std::to_string(random.whole(0, 20)));
            groups.push_back(std::string(1, static_cast<char>('a' + random.whole(0, random.whole(0, 4)))));
            projected.push_back(random.whole(0, 5) == 0 ? std::optional<double>{} : random.whole(0, 9));
        }
        const int lanes = random.whole(1, 9);
        const auto places = value_of(heat_list(names, projected, lanes, {}, Seconds{900}, groups));
        std::vector<std::size_t> seen;
        std::map<std::string, std::vector<std::size_t>> sizes; // of heats, by group
        std::map<std::string, std::size_t> members;
        std::vector<std::string> order;
        const auto rank = [&](const HeatPlace& place) { return projected[place.athlete].value_or(-infinite); };
        for (std::size_t i = 0; i < places.size(); ++i) {
            const auto& place = places[i];
            const auto& group = groups[place.athlete];
            seen.push_back(place.athlete);
            ++members[group];
            if (place.lane == 1) {
                ASSERT_EQ(place.heat, i == 0 ? 1 : places[i - 1].heat + 1);
                sizes[group].push_back(1);
                if (order.empty() || order.back() != group)
                    order.push_back(group);
            } else {
                ASSERT_EQ(place.heat, places[i - 1].heat);
                ASSERT_EQ(place.lane, places[i - 1].lane + 1);
                ASSERT_EQ(group, groups[places[i - 1].athlete]);
                ++sizes[group].back();
                ASSERT_TRUE(rank(places[i - 1]) > rank(place) ||
                            (rank(places[i - 1]) == rank(place) && places[i - 1].athlete < place.athlete));
            }
            for (std::size_t j = 0; j < i; ++j) {
                if (groups[places[j].athlete] == group && places[j].heat < place.heat) {
                    ASSERT_TRUE(rank(places[j]) < rank(place) ||
                                (rank(places[j]) == rank(place) && places[j].athlete < place.athlete));
                }
            }
            ASSERT_EQ(place.judge, judge_of(places, place));
        }
        std::vector<std::size_t> named;
        std::vector<std::string> appearance;
        for (std::size_t i = 0; i < names.size(); ++i) {
            if (names[i].empty())
                continue;
            named.push_back(i);
            if (std::find(appearance.begin(), appearance.end(), groups[i]) == appearance.end())
                appearance.push_back(groups[i]);
        }
        std::sort(seen.begin(), seen.end());
        ASSERT_EQ(seen, named) << "everybody once";
        ASSERT_EQ(order, appearance);
        for (const auto& [group, heats] : sizes) {
            const auto count = static_cast<std::size_t>(lanes);
            ASSERT_EQ(heats.size(), (members[group] + count - 1) / count);
            ASSERT_TRUE(std::is_sorted(heats.begin(), heats.end()));
            ASSERT_LE(heats.back() - heats.front(), 1u);
            ASSERT_LE(heats.back(), count);
        }
    }
}

TEST(Heat, TenThousandAthletesInAwkwardGroups) {
    // Half in one heat of 5000 lanes, the other half in heats of one: a judge is looked for far away.
    Names names;
    Names groups;
    for (int i = 0; i < 10000; ++i) {
        names.push_back("n");
        groups.push_back(i < 5000 ? "crowd" : "g" + std::to_string(i));
    }
    const auto begin = std::chrono::steady_clock::now();
    const auto places = value_of(heat_list(names, {}, 5000, {}, Seconds{900}, groups));
    EXPECT_LT(std::chrono::steady_clock::now() - begin, std::chrono::seconds{1});
    EXPECT_EQ(places.size(), 10000u);
    EXPECT_EQ(places.back().heat, 5001u);
}

} // namespace
} // namespace pacecells
