#include "pacecells/heat.h"

#include "expect.h"
#include "random.h"

#include <algorithm>
#include <chrono>
#include <map>
#include <set>
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
    EXPECT_EQ(written(places, names), (Names{"1.1 Ben Dan", "1.2 Cleo Gil",                  //
                                             "2.1 Ada Ben", "2.2 Eve Cleo", "2.3 Finn Hana", //
                                             "3.1 Dan Ada", "3.2 Hana Eve", "3.3 Gil Finn"}));
    EXPECT_FALSE(places.front().start);
}

TEST(Heat, NobodyJudgesJustBeforeTheirOwnHeatWhereAnotherCan) {
    const Names names{"A", "B", "C", "D", "E", "F", "G", "H"};
    // As given: heats A B, C D E, F G H. Heat 2 needs a third judge, and only people of heat 3 are left.
    const Names expected{"1.1 A F", "1.2 B G", "2.1 C A", "2.2 D B", "2.3 E H", "3.1 F C", "3.2 G D", "3.3 H E"};
    EXPECT_EQ(written(value_of(heat_list(names, {}, 3)), names), expected);
}

// A and C, B and E are teams; D is alone. Nobody of a team judges the heat of the partner.
TEST(Heat, ATeamHasTheLaneOfItsFirst) {
    const Names names{"A", "B", "C", "D", "E"};
    const Names teams{" one", "Two", "One ", "", "two"};
    const Column projected{1, 3, 9, 2, 0}; // those of A, B and D count
    const auto places = value_of(heat_list(names, projected, 2, {}, Seconds{900}, {}, {}, {}, teams));
    EXPECT_EQ(written(places, names), (Names{"1.1 A B", "1.1 C B", //
                                             "2.1 B A", "2.1 E A", "2.2 D C"}));
    const Names judges{"C", "E"};
    const auto judged = value_of(heat_list(names, projected, 1, {}, Seconds{900}, {}, judges, {}, teams));
    EXPECT_EQ(judged.size(), 5u);
    for (const auto& place : judged)
        EXPECT_NE(teams[place.athlete], place.judge == 0 ? "One " : "two") << "nobody judges the own team";
    EXPECT_REFUSED(heat_list(names, {}, 2, {}, Seconds{900}, {}, {}, {}, Names{"x"}));
}

// Heats A B, C D, E F; of the rest of the roster two do not start.
TEST(Heat, OnlyThoseWhoCanJudgeAndFirstThoseWhoDoNotStart) {
    const Names names{"A", "B", "C", "D", "E", "F"};
    const auto judged = [&](const Names& judges) {
        Names rows;
        for (const auto& place : value_of(heat_list(names, {}, 2, {}, Seconds{900}, {}, judges)))
            rows.push_back(place.judge ? judges[*place.judge] : "-");
        return rows;
    };
    EXPECT_EQ(judged({"A", "", "Ann", "D", "Bo", "E"}), (Names{"Ann", "Bo", "Ann", "Bo", "Ann", "Bo"}));
    EXPECT_EQ(judged({"Ann", "F", "C"}), (Names{"Ann", "F", "Ann", "F", "Ann", "C"})) << "F as the last one left";
    EXPECT_EQ(judged({" a ", "C"}), (Names{"C", "-", " a ", "-", " a ", "C"})) << "the rule for the same name";
    EXPECT_EQ(judged({"C"}), (Names{"C", "-", "-", "-", "C", "-"})) << "one person judges one lane";
    EXPECT_EQ(judged({}), Names(6, "-")) << "nobody is ticked";
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
    EXPECT_EQ(rows, (Names{"1.1 C B", "2.1 A C", "2.2 E D", "3.1 D A", "3.2 B E"}));
    EXPECT_EQ(places[0].start, Seconds{9 * 3600});
    EXPECT_EQ(places[1].start, Seconds{9 * 3600 + 600});
    EXPECT_EQ(places[4].start, Seconds{9 * 3600 + 1200});
}

TEST(Heat, NamesMayRepeatOrBeMissing) {
    const Names names{"A", "A", "A"};
    const auto places = value_of(heat_list(names, {}, 1));
    ASSERT_EQ(places.size(), 3u);
    for (std::size_t i = 0; i < 3; ++i)
        EXPECT_EQ(places[i].athlete, i);
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
    for (const SharedMachines bad : {SharedMachines{-1}, SharedMachines{1.5}, SharedMachines{2, Seconds{-1}}})
        EXPECT_REFUSED(heat_list(names, {}, 2, {}, Seconds{900}, {}, {}, bad));
}

// What is promised of judges, whoever they are.
void check_judges(const std::vector<HeatPlace>& places, const Names& names, const Names& judges) {
    std::map<std::string, std::size_t> heat_of;
    for (const auto& place : places)
        heat_of.try_emplace(names[place.athlete], place.heat);
    const auto own = [&](const std::string& name) { return heat_of.contains(name) ? heat_of.at(name) : 0; };
    const std::set<std::string> all(judges.begin(), judges.end());
    for (std::size_t heat = 1; heat <= (places.empty() ? 0 : places.back().heat); ++heat) {
        std::set<std::string> at_work;
        std::size_t lanes = 0;
        for (const auto& place : places) {
            if (place.heat != heat)
                continue;
            ++lanes;
            if (place.judge) {
                ASSERT_TRUE(at_work.insert(judges[*place.judge]).second) << "one lane each";
            }
        }
        std::size_t can = 0;
        bool idle = false, idle_who_does_not_start = false;
        for (const auto& judge : all) {
            const bool works = at_work.contains(judge);
            ASSERT_FALSE(works && own(judge) == heat) << "nobody judges the own heat";
            can += own(judge) != heat;
            idle = idle || (!works && own(judge) != heat && own(judge) != heat + 1);
            idle_who_does_not_start = idle_who_does_not_start || (!works && own(judge) == 0);
        }
        ASSERT_EQ(at_work.size(), std::min(lanes, can)) << "no lane without one while there is anyone";
        for (const auto& judge : at_work) {
            ASSERT_FALSE(idle && own(judge) == heat + 1) << "just before their own heat, and another could";
            ASSERT_FALSE(idle_who_does_not_start && own(judge) != 0) << "who does not start is asked first";
        }
    }
}

TEST(Heat, SharedMachinesStartOneAfterTheOther) {
    Names names;
    Column projected;
    for (int i = 0; i < 17; ++i) {
        names.push_back(std::string(1, static_cast<char>('A' + i)));
        projected.push_back(200 - i);
    }
    // Five rowers with two people on each are ten lanes: heats of 8 and 9, instead of four heats of 4 and 5.
    const auto places = value_of(heat_list(names, projected, 10, {}, Seconds{900}, {}, {}, {5, Seconds{84}}));
    ASSERT_EQ(places.back().heat, 2u);
    std::string written;
    for (const auto& place : places)
        if (place.heat == 2)
            written += names[place.athlete] + std::to_string(place.machine) + "+" +
                       std::to_string(static_cast<int>(place.offset.value())) + " ";
    EXPECT_EQ(written, "A1+0 B2+0 C2+84 D3+0 E3+84 F4+0 G4+84 H5+0 I5+84 ");
    // One rower and three people: one after the other.
    const auto three = value_of(heat_list(Names(names.begin(), names.begin() + 3), Column{3, 2, 1}, 3, {}, Seconds{900},
                                          {}, {}, {1, Seconds{84}}));
    ASSERT_EQ(three.size(), 3u);
    for (std::size_t i = 0; i < 3; ++i) {
        EXPECT_EQ(three[i].machine, 1u);
        EXPECT_EQ(three[i].offset, Seconds{84} * static_cast<double>(i));
    }
    for (const auto& place : value_of(heat_list(names, projected, 10, {}, Seconds{900}, {}, {}, {1e300, Seconds{84}})))
        EXPECT_EQ(place.machine, place.lane) << "more machines than people";
}

TEST(Heat, MachinesAreSharedByTheTimesOfAllTogether) {
    // (200 + 220) / (80 + 10 + 90 + 10) = 2.2, and (80 + 90) / 2 + 10 = 95
    const auto share = value_of(share_machines(Column{200, 220, std::nullopt}, Column{80, 90, 70}, Seconds{10}));
    EXPECT_EQ(share.people, 2);
    EXPECT_EQ(share.later, Seconds{95});
    EXPECT_EQ(value_of(share_machines(Column{180}, Column{80}, Seconds{10})).people, 2) << "just so";
    EXPECT_EQ(value_of(share_machines(Column{179}, Column{80.2}, Seconds{10})).people, 1);
    EXPECT_EQ(value_of(share_machines(Column{179}, Column{80.2}, Seconds{10})).later, Seconds{91});
    EXPECT_EQ(value_of(share_machines(Column{30}, Column{80}, Seconds{10})).people, 1)
        << "nobody has less than a machine";
    EXPECT_EQ(value_of(share_machines(Column{149.5}, Column{50}, Seconds{0})).people, 2);
    EXPECT_EQ(value_of(share_machines(Column{150}, Column{50}, Seconds{0})).people, 3);
    EXPECT_EQ(value_of(share_machines(Column{100, 100}, Column{50, 50}, Seconds{0})).later, Seconds{50});
    EXPECT_EQ(value_of(share_machines({}, {})).people, 1);
    EXPECT_REFUSED(share_machines(Column{1}, Column{}));
    EXPECT_REFUSED(share_machines(Column{-1}, Column{1}));
    EXPECT_REFUSED(share_machines(Column{1}, Column{1}, Seconds{-1}));
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
        Names judges; // of the roster up to n25, so that some do not start
        for (int i = random.whole(0, 12); i > 0; --i)
            judges.push_back("n" + std::to_string(random.whole(0, 25)));
        const int lanes = random.whole(1, 9);
        const auto places = value_of(heat_list(names, projected, lanes, {}, Seconds{900}, groups, judges));
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
        }
        check_judges(places, names, judges);
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
