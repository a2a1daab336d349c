"""Work out the standings of the sample meets by hand, so to speak.

    python3 sample-meets/expected.py

reads new.txt, roster.csv and acts.csv of each sample and writes, beside them,
expected-standings.csv (what the standings must be, cell for cell),
expected-scores.csv (the score that suits the day, by lot, where one is asked for) and
expected-working.txt (how each place came about); for a meet with teams also
expected-teams.csv. It needs nothing but Python 3.

It is a second opinion on the program: a plain reading of the acts in the order
of their rows. It knows no queue, no clock and no deadline; an act that the
program would refuse is believed here.

Sources. Places in weightlifting: Technical and Competition Rules & Regulations
of the International Weightlifting Federation, article 6.8.2, as quoted by a
published page on placement without bodyweight. Categories: the federation's
set from 1 August 2026 (the four classes that aren't Olympic, 60 and 70 for
men, 49 and 57 for women, and the inclusive class edge: from memory). Places in
powerlifting: Technical Rules of the International Powerlifting Federation 2007,
article 1 (d) and (e): equal results go to the lighter, then to who was first.
Classes: the federation's open classes since 2021 (69 and 76 for women: from
memory; the inclusive edge: as published by affiliates). Team points 12, 9, 8 and
one less for each place down to 1: from memory; two of a team in a class: as
published by a national team. Guests, disqualification and the shared places of a
max day: common practice.

Scores. Sinclair totals: 10^(A (log10(x/b))^2) times the total, as on the federation's
page of 2001-2004; A and b of 2021-2024 are from memory, and used for later days
too. IPF GL points: 100 over A - B e^(-C x), classic three lifts, as published by an
affiliate for days from 1 May 2020. Load over bodyweight: in use in a college's
intramural rules.
"""

import csv
import math
import shlex
from decimal import Decimal
from pathlib import Path

HERE = Path(__file__).resolve().parent
CLASSES = {
    "weightlifting": {
        "F": ["49", "53", "57", "61", "69", "77", "86", "86+"],
        "M": ["60", "65", "70", "75", "85", "95", "110", "110+"],
    },
    "powerlifting": {
        "F": ["47", "52", "57", "63", "69", "76", "84", "84+"],
        "M": ["59", "66", "74", "83", "93", "105", "120", "120+"],
    },
}
OWN_LIFTS = {
    "weightlifting": ["snatch", "clean-and-jerk"],
    "powerlifting": ["back-squat", "bench-press", "deadlift"],
}
FOREVER = Decimal("Infinity")


# ---- Reading ---------------------------------------------------------------

def table(path):
    """The rows of a file as dictionaries, header words in lower case."""
    with open(path, encoding="utf-8-sig", newline="") as file:
        rows = list(csv.reader(file))
    head = [word.strip().lower() for word in rows[0]]
    return [dict(zip(head, (cell.strip() for cell in row))) for row in rows[1:]]


def arguments(path):
    """What the day is made with: {'format': 'max-day', ...}."""
    words = shlex.split(path.read_text(encoding="utf-8"))
    return {words[i][2:]: words[i + 1] for i in range(0, len(words), 2)}


def programme(args):
    """The slots in order, each with its variants, the default first."""
    if "lifts" in args:
        parts = (part.partition("=") for part in args["lifts"].split(","))
        return {slot: (lifts or slot).split("+") for slot, _, lifts in parts}
    return {lift: [lift] for lift in OWN_LIFTS[args["format"]]}


def first_of(row, *words):
    """The cell under whichever of these header words the roster uses."""
    return next((row[word] for word in words if word in row), "")


def entries(roster, slots):
    """Everybody on the roster, by lot."""
    found = {}
    for row in roster:
        given = first_of(row, "first name", "given")
        family = first_of(row, "last name", "family")
        if "name" in row:
            family, _, given = (part.strip() for part in row["name"].partition(","))
        athlete = {
            "lot": int(row["lot"]),
            "id": first_of(row, "student id", "id"),
            "name": f"{given} {family}",
            "sex": first_of(row, "gender", "sex"),
            "grade": first_of(row, "gr", "grade"),
            "division": first_of(row, "division"),
            "team": first_of(row, "team"),
            "session": first_of(row, "period", "session"),
            "bodyweight": number(first_of(row, "bodyweight")),
            "guest": first_of(row, "guest").lower() == "yes", "out": "",
            "lift": {}, "asked": {}, "tried": {slot: {} for slot in slots}, "when": {},
        }
        for slot, variants in slots.items():
            cells = {lift: first_of(row, lift, lift.replace("-", " ")) for lift in variants}
            filled = [lift for lift in variants if cells[lift] not in ("", "-")]
            if filled:
                athlete["lift"][slot] = filled[0]
                athlete["asked"][slot, 1] = number(cells[filled[0]])
            elif "-" not in cells.values():
                athlete["lift"][slot] = variants[0]
        found[athlete["lot"]] = athlete
    return found


def number(text):
    return Decimal(text) if text else None


def plain(value):
    """A number without an exponent or trailing zeros; nothing for nothing."""
    if value is None:
        return ""
    text = f"{value:f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


# ---- What stands -----------------------------------------------------------

def standing(acts):
    """The acts left after undo, redo and annul, and a line on each of those."""
    said, undone, annulled, lines = [], {}, set(), []
    for line, act in enumerate(acts, start=2):
        act["line"] = line
        act["whole"] = act.get("id", "").partition("/")[0] or f"line {line}"
        where = act.get("platform", "")
        if act["act"] == "undo":
            last = next(a for a in reversed(said)
                        if a.get("platform") == where and a["whole"] not in annulled)
            annulled.add(last["whole"])
            undone.setdefault(where, []).append(last["whole"])
            lines.append(f"Line {line} undoes line {last['line']} ({words(last)}).")
        elif act["act"] == "redo":
            back = undone[where].pop()
            annulled.discard(back)
            lines.append(f"Line {line} does {back} again.")
        elif act["act"] == "annul":
            name = act["detail"].partition(";")[0].strip()
            annulled.add(name)
            lines.append(f"Line {line} annuls {name}.")
        else:
            said.append(act)
            if where:
                undone.pop(where, None)
    return [act for act in said if act["whole"] not in annulled], lines


def words(act):
    keys = ("act", "athlete", "lift", "attempt", "load", "detail")
    return " ".join(act[key] for key in keys if act.get(key))


def keys(detail):
    return dict((part.strip() for part in item.split("=", 1)) for item in detail.split(";"))


def ruled(detail):
    """A ruling in words or lights as one word: wwr:press-out is good."""
    word = detail.partition(":")[0].strip().lower()
    if word in ("good", "no", "pass", "time"):
        return word
    judges = [part.strip()[0] for part in detail.lower().split(",")]
    if len(judges) == 1:
        judges = list(word)
    return "good" if judges.count("w") * 2 > len(judges) else "no"


# ---- Telling the day over again --------------------------------------------

def tell(athletes, slots, acts):
    """Fill in what everybody lifted; give back a line on each unusual act."""
    slot_of = {lift: slot for slot, lifts in slots.items() for lift in lifts}
    slot_of.update({slot: slot for slot in slots})
    running, called, lines = {}, {}, []
    for act in acts:
        what, where, detail = act["act"], act.get("platform", ""), act.get("detail", "")
        if what == "start":
            running[where] = slot_of[act["lift"]]
        if what == "lights" and not act["athlete"]:
            athlete = called[where]
        elif act["athlete"]:
            athlete = athletes[int(act["athlete"])]
        else:
            continue
        slot = slot_of.get(act["lift"]) or running.get(where)
        tried = athlete["tried"].get(slot, {})
        turn = int(act["attempt"]) if act["attempt"] else len(tried) + 1
        load, asked = number(act["load"]), athlete["asked"]
        who = f"Line {act['line']}: lot {athlete['lot']}, {slot} {turn}"
        if what == "call":
            called[where] = athlete
            asked[slot, turn] = load
        elif what == "request":
            if load is None:
                load = tried[turn - 1][0] + Decimal(detail)
            asked[slot, turn] = load
        elif what in ("lights", "tally"):
            load = asked.get((slot, turn)) if load is None else load
            tried[turn] = [load, ruled(detail)]
            athlete["when"][slot, turn] = act["line"]
        elif what == "pass":
            last = 3 if detail == "rest" else turn
            tried.update({n: [None, "pass"] for n in range(turn, last + 1)})
        elif what == "stop":
            tried[turn] = [asked[slot, turn], "stopped"]
            lines.append(f"{who} is stopped: {detail}.")
        elif what == "loaded":
            before, found = tried[turn][0], f"{plain(load)} was on the bar"
            if detail == "keep":
                lines.append(f"{who}: {plain(before)} was called, {found}, and "
                             f"{plain(load)} counts.")
                tried[turn][0] = load
            else:
                assert detail in ("again", "repeat"), detail
                lines.append(f"{who}: {plain(before)} was called, {found}; it is void and "
                             f"taken anew.")
                del tried[turn]
        elif what == "overrule":
            word, _, why = detail.partition(":")
            lines.append(f"{who}: {tried[turn][1]} becomes {ruled(word)}: {why.strip()}.")
            tried[turn][1] = ruled(word)
        elif what == "correct":
            before = list(tried[turn])
            tried[turn] = [before[0] if load is None else load,
                           ruled(detail) if detail else before[1]]
            lines.append(f"{who}: {plain(before[0])} {before[1]} becomes "
                         f"{plain(tried[turn][0])} {tried[turn][1]}.")
        elif what == "extra":
            lines.append(f"Line {act['line']}: lot {athlete['lot']} gets one more attempt "
                         f"in {slot}: {detail}.")
        elif what == "weigh":
            athlete["bodyweight"] = load
        elif what == "place":
            athlete["session"] = keys(detail).get("session", athlete["session"])
            lines.append(f"Line {act['line']}: lot {athlete['lot']} moves: {detail}.")
        elif what == "withdraw":
            lines.append(f"Line {act['line']}: lot {athlete['lot']} withdraws from "
                         f"{slot}: {detail}.")
        elif what == "disqualify":
            assert not act["lift"], "only from the day here"
            athlete["out"] = detail
            lines.append(f"Line {act['line']}: lot {athlete['lot']} is disqualified: "
                         f"{detail}.")
    return lines


def sums(athletes, slots):
    """Bests, the attempt of each best, and totals."""
    for athlete in athletes:
        athlete["best"], athlete["best at"], athlete["place"] = {}, {}, {}
        for slot, tried in athlete["tried"].items():
            good = [(load, -turn) for turn, (load, ruling) in tried.items() if ruling == "good"]
            if good:
                load, turn = max(good)
                athlete["best"][slot], athlete["best at"][slot] = load, -turn
        whole = all(slot in athlete["best"] for slot in slots) and not athlete["out"]
        athlete["total"] = sum(athlete["best"].values()) if whole else None


# ---- Places on a max day: the same variant, ties shared --------------------

def shared(athletes, value, mark, lines, what):
    """Places 1, 2, 2, 4 by falling value."""
    ranked = sorted((a for a in athletes if value(a) is not None),
                    key=lambda a: (-value(a), a["lot"]))
    lines.append(f"{what}: {len(ranked)} placed.")
    for athlete in ranked:
        place = 1 + sum(value(other) > value(athlete) for other in ranked)
        mark(athlete, place)
    for amount in sorted({value(a) for a in ranked}, reverse=True):
        level = [a for a in ranked if value(a) == amount]
        if len(level) > 1:
            place = 1 + sum(value(other) > amount for other in ranked)
            lots = ", ".join(str(a["lot"]) for a in level)
            lines.append(f"  {plain(amount)}: lots {lots} share place {place}; "
                         f"the next place is {place + len(level)}.")


def max_day(athletes, slots, lines):
    for athlete in athletes:
        athlete["group"], athlete["category"] = "all", ""
        athlete["own"] = tuple(lift for slot, lift in athlete["lift"].items()
                               if lift != slots[slot][0])
    for slot, variants in slots.items():
        for lift in variants:
            own = [a for a in athletes if a["lift"].get(slot) == lift]
            shared(own, lambda a: a["best"].get(slot),
                   lambda a, place: a["place"].update({slot: place}), lines, f"{lift} in {slot}")
    ordered = []
    for own in sorted({a["own"] for a in athletes}):
        same = [a for a in athletes if a["own"] == own]
        name = "with " + ", ".join(own) if own else "with the default variants"
        shared(same, lambda a: a["total"], lambda a, place: a["place"].update(total=place),
               lines, f"Total {name} (a ranking of its own)")
        ordered += sorted(same, key=lambda a: (a["place"].get("total", FOREVER), a["lot"]))
    return ordered


# ---- Places in weightlifting: a chain of keys ------------------------------

def history(athlete, slot):
    """Attempt number of the best, then the attempts before it, walking back."""
    turn = athlete["best at"][slot]
    steps = [("attempt number of the best " + slot, turn)]
    for n in range(turn - 1, 0, -1):
        steps.append((f"{slot} {n}, an attempt before it", athlete["tried"][slot][n][0]))
    return steps


def lift_keys(athlete, slot):
    best = ("best " + slot, -athlete["best"][slot])
    return [best, *history(athlete, slot), ("lot", athlete["lot"])]


def total_keys(athlete):
    last = "clean-and-jerk"
    return [("total", -athlete["total"]), ("best " + last + ", lower", athlete["best"][last]),
            *history(athlete, last), ("lot", athlete["lot"])]


def chain(athletes, chosen, mark, lines, what):
    ranked = sorted(athletes, key=lambda a: [value for _, value in chosen(a)])
    for place, athlete in enumerate(ranked, start=1):
        mark(athlete, place)
    for place, (upper, lower) in enumerate(zip(ranked, ranked[1:]), start=1):
        pairs = list(zip(chosen(upper), chosen(lower)))
        step = next(i for i, (a, b) in enumerate(pairs) if a[1] != b[1])
        if step:
            lines.append(f"{what}: lots {upper['lot']} and {lower['lot']} both have "
                         f"{plain(-pairs[0][0][1])}.")
            lines += [f"  {a[0]}: {plain(a[1])} and {plain(b[1])}, equal."
                      for a, b in pairs[1:step]]
            a, b = pairs[step]
            lines.append(f"  {a[0]}: {plain(a[1])} before {plain(b[1])}, so lot "
                         f"{upper['lot']} is place {place} and lot {lower['lot']} "
                         f"place {place + 1}.")


def classed(athletes, classes):
    """Everybody into the class of the bodyweight; the groups in their order."""
    for athlete in athletes:
        labels = classes[athlete["sex"]]
        athlete["category"] = next((label for label in labels[:-1]
                                    if athlete["bodyweight"] <= Decimal(label)), labels[-1])
        athlete["group"] = f"{athlete['sex']} {athlete['category']}"
    return [f"{sex} {label}" for sex in "FM" for label in classes[sex]]


def by_class(athletes, slots, lines, classes, of_lift, of_total):
    """Places in every class; guests and who was disqualified have none."""
    ordered = []
    for group in classed(athletes, classes):
        everybody = [a for a in athletes if a["group"] == group]
        own = [a for a in everybody if not a["guest"] and not a["out"]]
        for slot in slots:
            chain([a for a in own if slot in a["best"]], lambda a: of_lift(a, slot),
                  lambda a, place: a["place"].update({slot: place}), lines, f"{group}, {slot}")
        chain([a for a in own if a["total"] is not None], of_total,
              lambda a, place: a["place"].update(total=place), lines, f"{group}, total")
        for athlete in own:
            if athlete["total"] is None:
                lift = ", ".join(f"{slot} place {athlete['place'][slot]}"
                                 for slot in slots if slot in athlete["best"])
                lines.append(f"{group}: lot {athlete['lot']} has no total, and keeps {lift}.")
        for athlete in everybody:
            if athlete["out"]:
                lines.append(f"{group}: lot {athlete['lot']} was disqualified, and has "
                             f"neither a place nor a total.")
            elif athlete["guest"]:
                lines.append(f"{group}: lot {athlete['lot']} is a guest, and has no place.")
        ordered += sorted(everybody, key=lambda a: (bool(a["out"]), a["guest"],
                                                    a["place"].get("total", FOREVER), a["lot"]))
    return ordered


def weightlifting(athletes, slots, lines):
    return by_class(athletes, slots, lines, CLASSES["weightlifting"], lift_keys, total_keys)


# ---- Places in powerlifting: lighter, then first to it ---------------------

def then_lighter(athlete, result, reached):
    """The rest of the chain behind a result that was reached on a line."""
    return [result, ("bodyweight", athlete["bodyweight"]), ("reached on line", reached),
            ("lot", athlete["lot"])]


def one_lift(athlete, slot):
    reached = athlete["when"][slot, athlete["best at"][slot]]
    return then_lighter(athlete, ("best " + slot, -athlete["best"][slot]), reached)


def three_lifts(athlete):
    reached = max(athlete["when"][pair] for pair in athlete["best at"].items())
    return then_lighter(athlete, ("total", -athlete["total"]), reached)


def powerlifting(athletes, slots, lines):
    return by_class(athletes, slots, lines, CLASSES["powerlifting"], one_lift, three_lifts)


def teams(athletes, lines):
    """Points of the places by total, two of a team in a class; best team first."""
    found = {}
    for athlete in athletes:
        place, team = athlete["place"].get("total"), athlete["team"]
        if place and team:
            scored = found.setdefault(team, [])
            if sum(group == athlete["group"] for group, *_ in scored) < 2:
                points = 12 if place == 1 else max(11 - place, 1)
                scored.append((athlete["group"], athlete["lot"], points))
    ranked = sorted(found.items(), key=lambda item: -sum(points for *_, points in item[1]))
    table = []
    for place, (team, scored) in enumerate(ranked, start=1):
        points = sum(points for *_, points in scored)
        assert all(points != other for *_, other in table), "two teams are level"
        table.append((place, team, points))
        lines.append(f"{team}: " + ", ".join(f"{group} lot {lot} {n}"
                                             for group, lot, n in scored) + f": {points}.")
    return table


# ---- Relative strength -----------------------------------------------------

SINCLAIR = {"F": (0.787004341, 153.757), "M": (0.722762521, 193.609)}
GL = {"F": (610.32796, 1045.59282, 0.03048), "M": (1199.72839, 1025.18162, 0.00921)}


def sinclair(athlete):
    a, b = SINCLAIR[athlete["sex"]]
    x = float(athlete["bodyweight"])
    power = a * math.log10(x / b) ** 2 if x < b else 0.0
    return f"{float(athlete['total']) * 10 ** power:.3f}"


def gl_points(athlete):
    a, b, c = GL[athlete["sex"]]
    over = a - b * math.exp(-c * float(athlete["bodyweight"]))
    return f"{float(athlete['total']) * 100 / over:.2f}"


def ratio(athlete):
    return f"{float(athlete['total']) / float(athlete['bodyweight']):.3f}"


SCORES = {"max-day": ("ratio", ratio), "weightlifting": ("sinclair", sinclair),
          "powerlifting": ("ipf-gl", gl_points)}


def scores(path, athletes, name, formula):
    with open(path, "w", encoding="utf-8", newline="") as file:
        out = csv.writer(file, lineterminator="\n")
        out.writerow(("lot", name))
        for athlete in athletes:
            scored = athlete["total"] is not None and athlete["bodyweight"] is not None
            out.writerow((athlete["lot"], formula(athlete) if scored else ""))


# ---- Writing ---------------------------------------------------------------

def standings(path, athletes, slots, unit):
    most = {slot: max([3, *(n for a in athletes for n in a["tried"][slot])]) for slot in slots}
    head = ("group place lot id name sex grade category division team session "
            "bodyweight").split() + ["scale unit", "bar unit"]
    for slot in slots:
        head.append(f"{slot} lift")
        for n in range(1, most[slot] + 1):
            head += [f"{slot} {n}", f"{slot} {n} ruling"]
        head += [f"{slot} best", f"{slot} place"]
    with open(path, "w", encoding="utf-8", newline="") as file:
        out = csv.writer(file, lineterminator="\n")
        out.writerow(head + ["total"])
        for a in athletes:
            row = [a["group"], a["place"].get("total", ""), a["lot"], a["id"], a["name"],
                   a["sex"], a["grade"], a["category"], a["division"], a["team"],
                   a["session"], plain(a["bodyweight"]), unit, unit]
            for slot in slots:
                row.append(a["lift"].get(slot, ""))
                for n in range(1, most[slot] + 1):
                    load, ruling = a["tried"][slot].get(n, (None, ""))
                    row += [plain(load), ruling]
                row += [plain(a["best"].get(slot)), a["place"].get(slot, "")]
            out.writerow(row + [plain(a["total"])])


def team_table(path, table):
    with open(path, "w", encoding="utf-8", newline="") as file:
        out = csv.writer(file, lineterminator="\n")
        out.writerows([("place", "team", "points"), *table])


RANKS = {"max-day": max_day, "weightlifting": weightlifting, "powerlifting": powerlifting}


def work_out(folder):
    args = arguments(folder / "new.txt")
    slots = programme(args)
    athletes = entries(table(folder / "roster.csv"), slots)
    acts, taken_back = standing(table(folder / "acts.csv"))
    unusual = tell(athletes, slots, acts)
    everybody = list(athletes.values())
    sums(everybody, slots)
    places = []
    ordered = RANKS[args["format"]](everybody, slots, places)
    standings(folder / "expected-standings.csv", ordered, slots, args["unit"])
    scores(folder / "expected-scores.csv", ordered, *SCORES[args["format"]])
    text = [args["name"] + ", " + args["date"] + ", loads in " + args["unit"], ""]
    text += ["Taken back", *taken_back, "", "Out of the ordinary", *unusual, "",
             "Places and ties", *places]
    if args["format"] == "powerlifting":
        scored = []
        team_table(folder / "expected-teams.csv", teams(ordered, scored))
        text += ["", "Teams", *scored]
    (folder / "expected-working.txt").write_text("\n".join(text) + "\n", encoding="utf-8",
                                                 newline="\n")


if __name__ == "__main__":
    for new in sorted(HERE.glob("*/new.txt")):
        work_out(new.parent)
